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

// ask is one visit: the world, what was typed, the job it is about.
type ask struct {
	World
	path    string
	address address.Address // of the path
	in      form.Values
	frame   view.Frame
	job     job.Job
	alert   string // what was wrong with a form that stands on this page
}

// Statuses that pages answer with.
const (
	statusOK         = 200
	statusSeeOther   = 303
	statusForbidden  = 403
	statusNotFound   = 404
	statusNotAllowed = 405
	statusWrong      = 422
	statusAway       = 503
)

func (w World) answer(post bool, path string, in form.Values) *Reply {
	if in == nil {
		in = form.Values{}
	}
	a := &ask{World: w, path: path, in: in}
	a.frame = view.Frame{Role: w.Visitor.Role, Name: w.Visitor.Name, Path: path, Device: w.Device,
		Flash: w.Flash, Undo: w.Undo, Theme: w.Theme, Assets: w.Assets, Scripts: w.Scripts, Now: w.Now,
		Units: a.units()}
	return a.answer(post)
}

func (a *ask) units() measure.System {
	if a.Units == measure.Metric {
		return measure.Metric
	}
	return measure.Imperial
}

func (a *ask) answer(post bool) *Reply {
	r, at := find(a.path)
	if r == nil || r.server {
		return a.notFound()
	}
	a.address = at
	role := a.Visitor.Role
	if !crew.allows(role) {
		return a.refused("Open the link that you were sent; it says who you are.")
	}
	if at.Job != "" {
		j, found := a.findJob(at.Job)
		if !found {
			return a.notFound()
		}
		a.enter(j)
	}
	if !r.who.allows(role) || post && !r.whoPosts.allows(role) {
		return a.refused("This is for whoever runs the job.")
	}
	if r.page == address.New || r.page == address.Calculator {
		a.frame.Units = unitsOf(form.Values{"units": {a.latest().Brief.Units}}, a.frame.Units)
	}
	answer := r.answers(post)
	if answer == nil {
		reply := a.trouble("Not this way", "This address takes no such request.", "Go back and try the button there.")
		reply.Status = statusNotAllowed
		return reply
	}
	return answer(a)
}

func (a *ask) findJob(id string) (job.Job, bool) {
	if a.World.Job == nil {
		return job.Job{}, false
	}
	j, found := a.World.Job(id)
	if !found {
		return job.Job{}, false
	}
	if j.State == nil {
		j.State = job.NewState()
	}
	if a.Visitor.Role != job.Owner ||
		j.Private == nil { // whatever the caller handed in, a helper never sees the private log
		j.Contact, j.Private = job.Contact{}, job.NewState()
	}
	return j, true
}

// enter makes the visit one to a job.
func (a *ask) enter(j job.Job) {
	a.job = j
	a.frame = a.frame.InJob(j)
	if a.LocalMinutes != nil {
		a.frame.Local = func(ms int64) (int, bool) { return a.LocalMinutes(j.Brief.Zone, ms) }
	}
}

func (a *ask) plan() plan.Plan {
	if a.World.Plan == nil {
		return plan.Make(a.job)
	}
	return a.World.Plan(a.job)
}

func (a *ask) rows() []view.JobRow {
	if a.Jobs == nil {
		return nil
	}
	return a.Jobs()
}

// latest gives the job whose title was written last, the zero Job if there is none.
func (a *ask) latest() *job.Job {
	var newest job.Stamp
	latest := &job.Job{}
	for _, row := range a.rows() {
		j, _ := a.findJob(row.ID)
		if j.State == nil {
			continue
		}
		if titles := j.State.Register("brief", "title").Readings; len(titles) > 0 && newest.Less(titles[0].Stamp) {
			newest, latest = titles[0].Stamp, &j
		}
	}
	return latest
}

// at gives the address of a page of the job.
func (a *ask) at(p address.Page, item ...string) string {
	return p.Path(append([]string{a.job.ID}, item...)...)
}

// draw answers with a page.
func (a *ask) draw(title string, body g.Node) *Reply {
	a.frame.Title = title
	a.frame.Alert = a.alert
	return &Reply{Status: statusOK, Title: title, Frame: a.frame, Body: body}
}

// wrong answers with a form that needs another look.
func (a *ask) wrong(title string, body g.Node) *Reply {
	reply := a.draw(title, body)
	reply.Status = statusWrong
	return reply
}

// wrote answers with what to write into the job and where to go then.
func (a *ask) wrote(changes []job.Change, then, flash string) *Reply {
	reply := a.goes(then, flash)
	if len(changes) == 0 {
		reply.Flash = "Nothing was changed."
		return reply
	}
	reply.Writes = []Write{{Job: a.job.ID, Changes: changes}}
	return reply
}

// goes answers by leading to another address, with what was done.
func (a *ask) goes(to, flash string) *Reply {
	return &Reply{Status: statusSeeOther, Frame: a.frame, Redirect: to, Flash: flash}
}

// makes answers with a new job of these changes.
func (a *ask) makes(changes []job.Change, flash string) *Reply {
	id := a.jobID()
	reply := a.goes(address.Job.Path(id), flash)
	reply.Writes = []Write{{Job: id, Changes: changes, Create: true}}
	return reply
}

func (a *ask) notFound() *Reply {
	reply := a.draw("Nothing here", view.NotFound(a.frame))
	reply.Status = statusNotFound
	return reply
}

func (a *ask) refused(why string) *Reply {
	reply := a.draw("Not yours to open", view.Refused(a.frame, why))
	reply.Status = statusForbidden
	return reply
}

func (a *ask) trouble(title, happened, next string) *Reply {
	to := address.Home.Path()
	if a.job.ID != "" {
		to = a.at(address.Job)
	}
	reply := a.draw(title, view.Trouble(title, happened, "Nothing was changed.", next, to, "Back"))
	reply.Status = statusWrong
	return reply
}

// newID gives an id for a new entity: what it is called, then some random letters, so that two phones without signal
// never make the same.
func (a *ask) newID(name string) string {
	random := a.jobID()
	if len(random) > 8 {
		random = random[len(random)-8:]
	}
	return slug(name, 20) + "-" + random
}

// jobID gives an id for a new job.
func (a *ask) jobID() string {
	if a.NewID == nil {
		return ""
	}
	return a.NewID()
}

// slug makes the beginning of an id from a name: up to so many small letters, digits and dashes.
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
