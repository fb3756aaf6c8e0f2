package page_test

import (
	"bytes"
	"fmt"
	"net/url"
	"os"
	"strings"
	"testing"

	"garlandry/app/forecast"
	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/calc/measure"
	"garlandry/pwa/form"
	"garlandry/pwa/page"
	"garlandry/pwa/view"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/require"
)

// world keeps jobs in memory. It writes and folds what pages request, as server and phone do.
type world struct {
	t      testing.TB
	jobs   map[string]*kept
	writer job.OpWriter
	seq    uint64
	now    int64
	ids    int
	held   int                  // quarantined operations in every job
	plans  map[string]plan.Plan // by job and sequence
	clocks *forecast.Cache      // nil: each page makes its own
	units  measure.System       // of the visitors' region
}

type kept struct{ shared, private *job.State }

func newWorld(t testing.TB) *world {
	w := &world{t: t, jobs: map[string]*kept{}, plans: map[string]plan.Plan{}, units: measure.Imperial}
	w.now = 1_800_000_000_000
	w.writer = job.OpWriter{Device: "phone1", Now: func() int64 { w.now++; return w.now }, NewID: w.newID}
	return w
}

// newID returns ids as long as real ones that differ in their last letters.
func (w *world) newID() string {
	w.ids++
	return fmt.Sprintf("abcdefghijklmnopqrst%06d", w.ids)
}

func (w *world) read(id string) (job.Job, bool) {
	k, known := w.jobs[id]
	if !known {
		return job.Job{}, false
	}
	return job.Read(id, k.shared, k.private), true
}

// plan caches the plan of a job until anything is written, as server and phone do.
func (w *world) plan(j job.Job) plan.Plan {
	key := fmt.Sprint(j.ID, w.seq)
	p, known := w.plans[key]
	if !known {
		p = plan.Make(j)
		w.plans[key] = p
	}
	return p
}

func (w *world) write(by job.Author, write page.Write) {
	k := w.jobs[write.Job]
	if write.Create {
		require.Nil(w.t, k, "a new job needs a new id")
		k = &kept{job.NewState(), job.NewState()}
		w.jobs[write.Job] = k
	}
	require.NotNil(w.t, k, "a write needs an existing job")
	w.now += 10_000 // time passes before the next form
	for _, c := range write.Changes {
		require.NoError(w.t, job.CheckChange(c), "%s %s", c.Entity, c.Field)
		require.True(w.t, by.Role.May(c.Kind, c.Entity), "%s may not write %s", by.Role, c.Entity)
		state := k.shared
		if job.Private(c.Entity) {
			state = k.private
		}
		w.seq++
		op := w.writer.Write(state, c)
		state.Apply(job.Rec{Op: op, Effective: op.Wall, Seq: w.seq, Author: by})
	}
}

// load imports a sample job under an id.
func (w *world) load(id, file string) {
	data, err := os.ReadFile("../../testdata/jobs/" + file)
	require.NoError(w.t, err)
	changes, err := job.DecodeFile(data)
	require.NoError(w.t, err)
	w.write(job.Author{Role: job.Owner}, page.Write{Job: id, Changes: changes, Create: true})
}

// visitor is a person whose browser runs no scripts.
type visitor struct {
	now int64 // 0: the time does not matter
	*world
	who   page.Visitor
	at    string // path and query of the page shown
	reply page.Reply
	doc   *goquery.Document
	flash string
	undo  *view.Action
}

func (w *world) visitor(role job.Role, name string) *visitor {
	return &visitor{world: w, who: page.Visitor{Role: role, Name: name}}
}

func (v *visitor) world1() page.Deps {
	now := v.now
	if now == 0 {
		now = 1_800_000_500_000
	}
	return page.Deps{Visitor: v.who, Now: now, NewID: v.newID, Units: v.units, Flash: v.flash, Undo: v.undo,
		Plan: v.plan, Clocks: v.clocks,
		Job: func(id string) (job.Job, bool) {
			j, known := v.read(id)
			return j, known
		},
		Jobs: func() []view.JobRow {
			var rows []view.JobRow
			for _, id := range sorted(v.jobs) {
				j, _ := v.read(id)
				rows = append(rows, page.Row(j, v.plan(j)))
			}
			return rows
		},
		Held: func(string) int { return v.held },
	}
}

// visit opens an address and follows redirects.
func (v *visitor) visit(address string) *visitor {
	for range 5 {
		path, query := parts(v.t, address)
		v.at, v.reply = address, page.Get(v.world1(), path, query)
		if v.reply.Redirect == "" {
			v.show()
			return v
		}
		address = v.reply.Redirect
	}
	require.Fail(v.t, "too many redirects", address)
	return v
}

func (v *visitor) show() {
	v.doc, v.flash, v.undo = nil, "", nil
	if v.reply.Body == nil {
		return
	}
	var b bytes.Buffer
	require.NoError(v.t, view.Document(v.reply.Frame, v.reply.Body).Render(&b))
	doc, err := goquery.NewDocumentFromReader(&b)
	require.NoError(v.t, err)
	v.doc = doc
}

// submit posts a form of the page as a browser would, with its values changed by set. A name in set with an empty list
// removes the input (an unticked box). A non-empty act presses the button of that act.
func (v *visitor) submit(selector string, set form.Values, act ...string) *visitor {
	f := v.doc.Find(selector).First()
	require.Equal(v.t, 1, f.Length(), "no form %s on %s", selector, v.at)
	typed := standing(f)
	for key, list := range set {
		if len(list) == 0 {
			delete(typed, key)
		} else {
			typed[key] = list
		}
	}
	for _, a := range act {
		typed["act"] = []string{a}
	}
	action, _ := f.Attr("action")
	if method, _ := f.Attr("method"); strings.EqualFold(method, "get") {
		action, _, _ = strings.Cut(action, "#") // which the browser puts behind the query
		return v.visit(action + "?" + url.Values(typed).Encode())
	}
	return v.post(action, typed)
}

// post posts a form, writes the changes of the reply, and follows it.
func (v *visitor) post(path string, typed form.Values) *visitor {
	v.reply = page.Post(v.world1(), path, typed)
	if v.reply.Status >= 400 {
		require.Empty(v.t, v.reply.Writes, "an error must not write anything")
		v.show()
		return v
	}
	for _, w := range v.reply.Writes {
		v.write(job.Author{Role: v.who.Role, Name: v.who.Name}, w)
	}
	if v.reply.Redirect == "" {
		v.show()
		return v
	}
	flash, undo := v.reply.Flash, v.reply.Undo
	v.flash, v.undo = flash, undo
	v.visit(v.reply.Redirect)
	return v
}

// standing returns the values of a form as a browser would send them.
func standing(f *goquery.Selection) form.Values {
	typed := form.Values{}
	const fields = "input,select,textarea"
	beside := f.ParentsFiltered("#page").Find(fields).Filter("[form='" + f.AttrOr("id", "") + "']")
	f.Find(fields).AddSelection(beside).Each(func(_ int, s *goquery.Selection) {
		name, named := s.Attr("name")
		if !named || name == "" {
			return
		}
		value, _ := s.Attr("value")
		switch kind, _ := s.Attr("type"); {
		case goquery.NodeName(s) == "textarea":
			value = strings.TrimPrefix(s.Text(), "\n")
		case goquery.NodeName(s) == "select":
			picked := s.Find("option[selected]")
			if picked.Length() == 0 {
				picked = s.Find("option").First()
			}
			value, _ = picked.Attr("value")
		case kind == "checkbox" || kind == "radio":
			if _, on := s.Attr("checked"); !on {
				return
			}
		case kind == "file":
			value = ""
		}
		typed[name] = append(typed[name], value)
	})
	return typed
}

func (v *visitor) text() string { return strings.Join(strings.Fields(v.doc.Find("#page").Text()), " ") }

// current returns the job that the visitor is in.
func (v *visitor) current() job.Job {
	path, _ := parts(v.t, v.at)
	id := strings.Split(path, "/")[2]
	j, known := v.read(id)
	require.True(v.t, known)
	return j
}

func parts(t testing.TB, address string) (string, form.Values) {
	u, err := url.Parse(address)
	require.NoError(t, err)
	return u.Path, form.Values(u.Query())
}

func sorted(jobs map[string]*kept) []string {
	ids := make([]string, 0, len(jobs))
	for id := range jobs {
		ids = append(ids, id)
	}
	for i := range ids {
		for k := i + 1; k < len(ids); k++ {
			if ids[k] < ids[i] {
				ids[i], ids[k] = ids[k], ids[i]
			}
		}
	}
	return ids
}

// pagePost posts without writing anything.
func pagePost(v *visitor, path string, typed form.Values) page.Reply {
	return page.Post(v.world1(), path, typed)
}
