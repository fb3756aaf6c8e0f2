package device

import (
	"bytes"
	"errors"
	"slices"
	"strings"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/phone"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/page"
	"garlandry/pwa/view"

	"maragu.dev/gomponents"
)

// maxRedirects is how often one answer may redirect.
const maxRedirects = 4

// get answers a request for a page.
func (c *Core) get(number int, url string) Drawing {
	path, query, ok := split(url)
	if !ok {
		return Drawing{Type: "unknown", Number: number}
	}
	delete(query, "from")
	c.current = url
	c.lost = false
	c.cancelLeaving(path)
	if !c.messages.unread {
		c.messages = messages{}
	}
	if at, _ := address.Parse(path); at.Page == address.Export && c.aside[at.Job] && c.mine(at.Job) {
		return c.waitingFile(number, at.Job)
	}
	if !c.holds(path) || !c.caughtUp(path) {
		return Drawing{Type: "unknown", Number: number}
	}
	return c.follow(number, url, c.page(path, query))
}

// offline draws a page in place of one that the phone does not hold and the server cannot bring. The installed app's
// start address leads to the jobs that are here.
func (c *Core) offline(number int, url string) Drawing {
	path, _, _ := split(url)
	if path == address.JoinOpen.Path() && c.holds(address.Home.Path()) {
		return c.get(number, address.Home.Path())
	}
	w := c.deps()
	f := view.Frame{Title: "No signal", Path: path, Role: w.Visitor.Role, Name: w.Visitor.Name,
		Device: w.Device, Now: w.Now, Scripts: true}
	body := view.Offline(f)
	if id := address.JobOf(path); c.aside[id] && c.mine(id) {
		f.Title, body = "Set aside", view.Jobs(f, []view.JobRow{c.asideRow(id)}, 0)
	}
	d := c.drawing(number, url, page.Reply{Frame: f, Title: f.Title, Body: body})
	c.shown = "" // this is not the page itself, so it cannot be "gone"
	return d
}

// holds reports whether this phone can answer for the path: it has access, and the job is here.
func (c *Core) holds(path string) bool {
	if page.ServerOnly(path) || c.me.Role == "" {
		return false
	}
	id := address.JobOf(path)
	if id == "" {
		return true
	}
	if !c.mine(id) {
		return false
	}
	_, there := c.job(id)
	return there
}

// follow draws a reply, or the page it redirects to.
func (c *Core) follow(number int, url string, r page.Reply) Drawing {
	for range maxRedirects {
		if r.Redirect == "" {
			break
		}
		path, query, ok := split(r.Redirect)
		if !ok || !c.holds(path) {
			return Drawing{Type: "unknown", Number: number, Path: r.Redirect}
		}
		url = r.Redirect
		c.current = url
		if r.Flash != "" {
			c.messages = messages{flash: r.Flash, undo: r.Undo, alert: c.messages.alert}
		}
		r = c.page(path, query)
	}
	if r.File != nil {
		return Drawing{Type: "file", Number: number, Name: r.File.Name, Mime: r.File.Mime, Text: string(r.File.Data)}
	}
	if r.Body == nil {
		return Drawing{Type: "unknown", Number: number, Path: url}
	}
	return c.drawing(number, url, r)
}

// drawing renders the parts of a page that change.
func (c *Core) drawing(number int, url string, r page.Reply) Drawing {
	c.shown, c.pending, c.messages.unread = url, redrawNothing, false
	d := Drawing{Type: "drawn", Number: number, Path: url, Title: r.Title + " · Garlandry",
		Parts: map[string]string{}, Waiting: r.Frame.Device.Waiting}
	parts := map[string]gomponents.Node{"top": view.TopInside(r.Frame), "state": view.StateInside(r.Frame),
		"page": view.PageInside(r.Frame, r.Body), "nav": view.NavInside(r.Frame)}
	if number != 0 { // a redraw leaves alone what a person may have dismissed
		parts["flash"] = view.FlashInside(r.Frame)
	}
	for id, node := range parts {
		var b bytes.Buffer
		if err := node.Render(&b); err == nil { // a buffer takes everything
			d.Parts[id] = b.String()
		}
	}
	c.drawn, c.forms = r.Status, r.Forms
	return d
}

// post handles a posted form. Package page decides what it means. It is stored before it is drawn as done.
func (c *Core) post(m Message) Drawing {
	path, _, ok := split(m.Path)
	if id, leaves := c.leaves(path); ok && leaves {
		return c.leave(m, path, id, slices.Contains(m.Form, [2]string{view.FieldAll, "yes"}))
	}
	if !ok || !c.holds(path) {
		return Drawing{Type: "unknown", Number: m.Number}
	}
	c.flush()
	if m.ID != "" && c.posts[m.ID] { // a repeat from the journal
		d := c.get(m.Number, c.current)
		d.Stored, d.Copy = c.unwritten == nil, c.copyFor(m.ID)
		return d
	}
	c.lost = false
	typed := form.Values{}
	for _, pair := range m.Form {
		typed[pair[0]] = append(typed[pair[0]], pair[1])
	}
	reply, err := c.writeForm(path, typed, m.ID)
	if err != nil {
		return c.notSaved(m, err)
	}
	switch {
	case c.messages.unread: // the storage was cleared
	case c.unwritten != nil:
		c.messages = messages{alert: unsavedText}
	default:
		c.messages = messages{}
	}
	reply.Frame.Device.Refused = reply.Status >= 400
	d := c.follow(m.Number, m.Path, reply)
	d.Refused = reply.Status >= 400
	d.Stored = !d.Refused && c.unwritten == nil
	d.Copy = c.copyFor(m.ID)
	c.messages.form = d.Refused
	return d
}

// writeForm stores what a posted form means. It decides again if another tab was faster.
func (c *Core) writeForm(path string, typed form.Values, id string) (page.Reply, error) {
	var reply page.Reply
	var touched []page.Write
	defer c.working(address.JobOf(path))()
	if err := c.loadFor(path); err != nil {
		return reply, err
	}
	err := c.do(func() (phone.Step, []Entry, error) {
		if id != "" && c.posts[id] {
			reply.Writes = nil
			return phone.Step{}, nil, nil
		}
		var step phone.Step
		var own []Entry
		err := c.withPostIDs(id, func() (err error) {
			reply = page.Post(c.deps(), path, typed)
			touched = reply.Writes
			step, own, err = c.stepFor(reply, id)
			return err
		})
		return step, own, err
	})
	if err != nil {
		return reply, err
	}
	if id != "" {
		c.posts[id] = true
	}
	if reply.BringBack != "" {
		c.broughtBack(reply.BringBack)
	}
	for _, w := range touched {
		for _, change := range w.Changes {
			if !job.IsProgress(change.Entity) {
				c.designChanged(w.Job)
			}
		}
	}
	return reply, nil
}

// stepFor makes the step that stores a reply.
func (c *Core) stepFor(reply page.Reply, id string) (phone.Step, []Entry, error) {
	var own []Entry
	if id != "" && len(reply.Writes) > 0 {
		own = append(own, Entry{keyPosts + id, formatMS(c.Now())})
	}
	if reply.Dismissed != "" {
		step, err := c.phone.Dismiss(reply.Dismissed)
		return step, own, err
	}
	if reply.NoInstall {
		c.noInstall = true
		step, err := c.phone.SetAuthor(c.phone.Author())
		return step, append(own, Entry{keyNoInstall, "yes"}), err
	}
	if reply.BringBack != "" {
		step, err := c.bringBackStep(reply.BringBack)
		return step, own, err
	}
	var steps []phone.Step
	for _, w := range reply.Writes {
		made, err := c.writeJob(w)
		if err != nil {
			return phone.Step{}, nil, err
		}
		steps = append(steps, made...)
	}
	return join(steps), own, nil
}

func (c *Core) writeJob(w page.Write) ([]phone.Step, error) {
	var steps []phone.Step
	keep := func(step phone.Step, err error) error {
		if err == nil && !step.Empty() {
			steps = append(steps, step)
		}
		return err
	}
	if !w.Create {
		if _, err := c.ready(w.Job); err != nil { // reading another job may have opened the phone again
			return nil, err
		}
	}
	shared, private := splitPrivate(w.Changes)
	logs := []string{w.Job}
	if c.me.Role == job.Owner {
		logs = append(logs, w.Job+sync.OwnSuffix)
	}
	for i, changes := range [][]job.Change{shared, private} {
		if i >= len(logs) || len(changes) == 0 && !w.Create {
			continue
		}
		if w.Create {
			c.created[w.Job] = true
			if err := keep(c.phone.Track(logs[i])); err != nil {
				return nil, err
			}
			if _, err := c.phone.Give(logs[i], nil); err != nil {
				return nil, err
			}
		}
		if len(changes) == 0 {
			continue
		}
		if c.postIDs != nil {
			c.postIDs.private = i > 0
		}
		_, step, err := c.phone.Write(logs[i], changes...)
		if err := keep(step, err); err != nil {
			return nil, err
		}
	}
	return steps, nil
}

func splitPrivate(changes []job.Change) (shared, private []job.Change) {
	for _, change := range changes {
		if job.Private(change.Entity) {
			private = append(private, change)
		} else {
			shared = append(shared, change)
		}
	}
	return shared, private
}

// join makes one step of several successive ones, for one transaction. No step deletes what an earlier one puts, since
// writing only adds.
func join(steps []phone.Step) phone.Step {
	if len(steps) == 0 {
		return phone.Step{}
	}
	whole := steps[0]
	for _, s := range steps[1:] {
		whole.Rev = s.Rev
		whole.Drop = append(whole.Drop, s.Drop...)
		whole.Delete = append(whole.Delete, s.Delete...)
		whole.Put = append(whole.Put, s.Put...)
	}
	return whole
}

// loadFor reads the logs of a path's job, since a write needs them.
func (c *Core) loadFor(path string) error {
	id := address.JobOf(path)
	if id == "" {
		return nil
	}
	_, err := c.ready(id)
	return err
}

const unsavedText = "This could not be saved on this phone. " +
	"It is sent to the server when there is signal. Make room on the phone."

// notSaved reports that a post could not be handled here, since the storage cannot be read. The form on the screen
// keeps what was typed, and the page's journal keeps the post and sends it to the server.
func (c *Core) notSaved(m Message, err error) Drawing {
	c.refusal = err.Error()
	c.messages = messages{alert: unsavedText, unread: true}
	if errors.Is(err, errStale) {
		c.messages.alert = "This could not be saved on this phone. Close the app’s other tabs. " +
			"It is sent to the server when there is signal."
	}
	if c.current == "" {
		return Drawing{Type: "unsaved", Number: m.Number}
	}
	c.pending = redrawPage
	d := c.state()
	d.Type, d.Number = "unsaved", m.Number
	return d
}

// split splits an address into its decoded path and its query.
func split(url string) (path string, query form.Values, ok bool) {
	raw, rest, _ := strings.Cut(url, "?")
	path, err := form.ParsePath(raw)
	if err != nil || !strings.HasPrefix(path, "/") {
		return "", nil, false
	}
	values, err := form.ParseQuery(rest)
	if err != nil {
		return "", nil, false
	}
	return path, values, true
}
