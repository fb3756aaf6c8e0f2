package page

import (
	"strings"

	g "maragu.dev/gomponents"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// request is one visit: its dependencies, what was typed and the job it is about.
type request struct {
	Deps
	path    string
	address address.Address // of the path
	in      form.Values
	frame   view.Frame
	job     job.Job
	alert   string // what was wrong with a form on this page
}

// HTTP statuses of pages.
const (
	statusOK         = 200
	statusSeeOther   = 303
	statusForbidden  = 403
	statusNotFound   = 404
	statusNotAllowed = 405
	statusWrong      = 422
	statusAway       = 503
)

// answer answers a GET or a POST.
func (w Deps) answer(post bool, path string, in form.Values) *Reply {
	if in == nil {
		in = form.Values{}
	}
	a := &request{Deps: w, path: path, in: in}
	a.frame = view.Frame{Role: w.Visitor.Role, Name: w.Visitor.Name, Path: path, Device: w.Device,
		Flash: w.Flash, Undo: w.Undo, Theme: w.Theme, Assets: w.Assets, Scripts: w.Scripts, OverHTTP: w.OverHTTP, Now: w.Now,
		Units: a.units()}
	return a.answer(post)
}

func (r *request) units() measure.System {
	if r.Units == measure.Metric {
		return measure.Metric
	}
	return measure.Imperial
}

func (r *request) answer(post bool) *Reply {
	route, at := find(r.path)
	if route == nil || route.server {
		return r.notFound()
	}
	r.address = at
	role := r.Visitor.Role
	if !crew.allows(role) {
		return r.forbidden("Open the link you were sent.")
	}
	if at.Job != "" {
		j, found := r.findJob(at.Job)
		if !found {
			return r.notFound()
		}
		r.enter(j)
	}
	if !route.who.allows(role) || post && !route.whoPosts.allows(role) {
		if route.who == owner || post && route.whoPosts == owner {
			return r.forbidden("Only the owner of the job can open this.")
		}
		return r.forbidden("Only the owner or a lead of the job can open this.")
	}
	if route.page == address.New || route.page == address.Calculator {
		r.frame.Units = unitsOf(form.Values{"units": {r.chosenUnits()}}, r.frame.Units)
	}
	answer := route.answers(post)
	if answer == nil {
		reply := r.trouble(view.LabelFailed, view.LabelCannot, view.LabelGoBack)
		reply.Status = statusNotAllowed
		return reply
	}
	return answer(r)
}

func (r *request) findJob(id string) (job.Job, bool) {
	if r.Deps.Job == nil {
		return job.Job{}, false
	}
	j, found := r.Deps.Job(id)
	if !found {
		return job.Job{}, false
	}
	if j.State == nil {
		j.State = job.NewState()
	}
	// Whatever the caller passed, a helper never sees the private log.
	if r.Visitor.Role != job.Owner || j.Private == nil {
		j.Contact, j.Prices, j.Private = job.Contact{}, map[string]string{}, job.NewState()
	}
	return j, true
}

// enter makes the request one for a job.
func (r *request) enter(j job.Job) {
	r.job = j
	r.frame = r.frame.InJob(j)
	if r.LocalMinutes != nil {
		r.frame.Local = func(ms int64) (int, bool) { return r.LocalMinutes(j.Brief.Zone, ms) }
	}
}

func (r *request) plan() plan.Plan {
	if r.Deps.Plan == nil {
		return plan.Make(r.job)
	}
	return r.Deps.Plan(r.job)
}

func (r *request) rows() []view.JobRow {
	if r.Jobs == nil {
		return nil
	}
	return r.Jobs()
}

// latest returns the job whose title was set last, the zero Job if there is none.
func (r *request) latest() *job.Job {
	var newest job.Stamp
	latest := &job.Job{}
	for _, row := range r.rows() {
		j, _ := r.findJob(row.ID)
		if j.State == nil {
			continue
		}
		if titles := j.State.Register("brief", "title").Readings; len(titles) > 0 && newest.Less(titles[0].Stamp) {
			newest, latest = titles[0].Stamp, &j
		}
	}
	return latest
}

// chosenUnits returns the units that somebody chose last for a job; "" if nobody did. Those of a job that the server
// wrote, such as the demo, are nobody's choice.
func (r *request) chosenUnits() (units string) {
	var newest job.Stamp
	for _, row := range r.rows() {
		j, _ := r.findJob(row.ID)
		if j.State == nil {
			continue
		}
		chosen := j.State.Register("brief", "units").Readings
		if len(chosen) > 0 && chosen[0].Author.Link != job.ServerLink && newest.Less(chosen[0].Stamp) {
			newest, units = chosen[0].Stamp, j.Brief.Units
		}
	}
	return units
}

// at returns the address of a page of the job.
func (r *request) at(p address.Page, item ...string) string {
	return p.Path(append([]string{r.job.ID}, item...)...)
}

// draw answers with a page.
func (r *request) draw(title string, body g.Node) *Reply {
	r.frame.Title = title
	r.frame.Alert = r.alert
	return &Reply{Status: statusOK, Title: title, Frame: r.frame, Body: body}
}

// invalid answers with a form that has errors.
func (r *request) invalid(title string, body g.Node) *Reply {
	reply := r.draw(title, body)
	reply.Status = statusWrong
	return reply
}

// save answers with changes to the job and where to go next.
func (r *request) save(changes []job.Change, then, flash string) *Reply {
	reply := r.redirect(then, flash)
	if len(changes) == 0 {
		reply.Flash = view.LabelUnchanged
		return reply
	}
	reply.Writes = []Write{{Job: r.job.ID, Changes: changes}}
	reply.Undo = &view.Action{Act: "unfix", Job: r.job.ID, Text: r.fieldsOf(changes)}
	return reply
}

// redirect answers with another address and a message for it.
func (r *request) redirect(to, flash string) *Reply {
	return &Reply{Status: statusSeeOther, Frame: r.frame, Redirect: to, Flash: flash}
}

// create answers with a new job made of the changes.
func (r *request) create(changes []job.Change, flash string) *Reply {
	id := r.jobID()
	reply := r.redirect(address.Job.Path(id), flash)
	reply.Writes = []Write{{Job: id, Changes: changes, Create: true}}
	return reply
}

func (r *request) notFound() *Reply {
	reply := r.draw("Nothing here", view.NotFound(r.frame))
	reply.Status = statusNotFound
	return reply
}

func (r *request) forbidden(why string) *Reply {
	reply := r.draw(view.LabelNoAccess, view.Refused(r.frame, why))
	reply.Status = statusForbidden
	return reply
}

func (r *request) trouble(title, happened, next string) *Reply {
	to := address.Home.Path()
	if r.job.ID != "" {
		to = r.at(address.Job)
	}
	reply := r.draw(title, view.Trouble(title, happened, view.LabelUnchanged, next, to, "Back"))
	reply.Status = statusWrong
	return reply
}

// newID returns an id for a new entity: its name and random letters, so two phones without signal never make the same
// one.
func (r *request) newID(name string) string {
	random := r.jobID()
	if len(random) > 8 {
		random = random[len(random)-8:]
	}
	return slug(name, 20) + "-" + random
}

// jobID returns an id for a new job.
func (r *request) jobID() string {
	if r.NewID == nil {
		return ""
	}
	return r.NewID()
}

// slug makes the beginning of an id from a name: lower-case letters, digits and dashes up to a length.
func slug(name string, most int) string {
	var b strings.Builder
	dash := false
	for _, r := range strings.ToLower(name) {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			if dash && b.Len() > 0 {
				b.WriteByte('-')
			}
			dash = false
			b.WriteRune(r)
		} else {
			dash = true
		}
		if b.Len() >= most {
			break
		}
	}
	if b.Len() == 0 {
		return "x"
	}
	return b.String()
}
