package device

import (
	"cmp"
	"errors"
	"slices"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/phone"
	"garlandry/calc/stable"
	"garlandry/pwa/address"
	"garlandry/pwa/view"
)

// keyOff is the prefix of the keys for jobs that the owner removed from this phone. The job's id follows; the text is
// its title.
const keyOff = "off/"

// leaving is a sign-out, or the removal of one job, in progress. Waiting operations are sent first.
type leaving struct {
	job   string // to remove; "" to sign out
	at    string // the address of its page
	lose  bool   // leave without sending
	met   bool   // the server has told us who we are since leaving began
	stuck string // why it cannot go on; "" while it does
}

// leaves reports whether a post to the path signs out or removes a job. The id is "" for signing out.
func (c *Core) leaves(path string) (id string, leaves bool) {
	at, _ := address.Parse(path)
	if at.Page == address.SignOut {
		return "", true
	}
	return at.Job, at.Page == address.RemoveJob && c.me.Role == job.Owner && slices.Contains(c.phone.Logs(), at.Job)
}

// leave starts to sign out or to remove a job. [Core.continueLeaving] finishes it.
func (c *Core) leave(m Message, path, id string, lose bool) Drawing {
	known := c.me.Role != ""
	if !known && !lose && len(c.losses("")) == 0 {
		return Drawing{Type: "unknown", Number: m.Number} // nothing is here: the server does it alone
	}
	c.current, c.lost, c.messages = path, false, messages{}
	c.leaving = &leaving{job: id, at: path, lose: lose}
	c.retryAtOnce()
	c.askedMe = 0
	var d Drawing
	if known {
		d = c.follow(m.Number, path, c.page(path, nil))
	} else {
		d = c.leavingUnknown(m.Number, path)
	}
	d.Stored = true // there is nothing to repeat
	return d
}

// continueLeaving goes on with leaving. It finishes when everything is sent, or finds out why that is not possible.
func (c *Core) continueLeaving() {
	l := c.leaving
	if l == nil || l.stuck != "" || c.mustReload {
		return
	}
	if !l.lose {
		if len(c.losses(l.job)) > 0 || l.job == "" && !l.met {
			c.checkStuck(l)
			return
		}
		if c.load() != nil || len(c.losses(l.job)) > 0 { // another tab may have stored something just now
			return
		}
	}
	c.leaving = nil
	if l.job == "" {
		c.left = true
		c.Page.Draw(Drawing{Type: "leave"})
		return
	}
	c.removeJob(l)
}

// checkStuck finds out why leaving cannot go on, if it cannot.
func (c *Core) checkStuck(l *leaving) {
	open := l.job == "" && !l.met
	for _, log := range c.logsOf(l.job) {
		unsent, heals := c.phone.WouldLose(log)
		s := c.phone.Status(log)
		if unsent == 0 && !heals || !c.mine(log) || s.Waiting == 0 && (!heals || c.isAside(log)) {
			continue
		}
		open = true
		if s.Failures > 0 && !c.inFlight[log] {
			l.stuck = s.Reason
		}
	}
	if !open && l.job == "" && c.unposted > 0 {
		l.stuck = "The server does not have all forms yet."
	} else if !open {
		l.stuck = "Only the link it was made under can share it."
	}
	if l.stuck != "" {
		c.pending = redrawPage
	}
}

// metServer tells a leaving phone how the server answered when asked who we are.
func (c *Core) metServer(status int) {
	l := c.leaving
	if l == nil || l.stuck != "" {
		return
	}
	c.pending = redrawPage
	switch {
	case status == 200:
		l.met = true
	case status == 401: // no access any more: nobody is left to sign out
		l.met = true
		if len(c.losses(l.job)) > 0 {
			l.stuck = "This phone no longer has access."
		}
	case status == 0:
		l.stuck = view.LabelNoAnswer
	case status == 429:
		l.stuck = view.LabelServerBusy
	default:
		l.stuck = view.LabelServerSays + formatMS(int64(status)) + "."
	}
}

// cancelLeaving stops leaving when another page is opened.
func (c *Core) cancelLeaving(path string) {
	if c.leaving != nil && c.leaving.at != path {
		c.leaving = nil
	}
}

// removeJob takes a job off this phone and notes that it must not come back by itself.
func (c *Core) removeJob(l *leaving) {
	title := ""
	if j, there := c.job(l.job); there {
		title = j.Brief.Title
	}
	err := c.do(func() (phone.Step, []Entry, error) {
		var steps []phone.Step
		for _, log := range []string{l.job, l.job + sync.OwnSuffix} {
			step, err := c.phone.Remove(log, l.lose)
			switch {
			case err == nil:
				steps = append(steps, step)
			case !errors.Is(err, phone.ErrUntracked):
				return phone.Step{}, nil, err
			}
		}
		return join(steps), []Entry{{keyOff + l.job, title}}, nil
	})
	if err != nil {
		c.messages = messages{alert: "The job could not be removed (" + err.Error() + ").", unread: true}
		c.pending = redrawPage
		return
	}
	c.off[l.job] = title
	delete(c.readings, l.job)
	c.messages = messages{flash: orUntitled(title) + " is not on this phone any more.", unread: true}
	if c.unwritten != nil {
		c.messages = messages{alert: "This phone’s storage refuses. The job goes from it once there is room.", unread: true}
	}
	c.current, c.shown = "", "" // its page is gone; the next one is asked for
	c.Page.Draw(Drawing{Type: "removed", Path: address.Phone.Path(), Name: l.job})
}

// bringBackStep makes the step that brings a removed job back onto this phone.
func (c *Core) bringBackStep(id string) (phone.Step, error) {
	if _, off := c.off[id]; !off {
		return phone.Step{}, nil
	}
	first, err := c.phone.SetAuthor(c.phone.Author()) // writes the phone's row, so that there is a step
	steps := []phone.Step{first}
	for _, log := range []string{id, id + sync.OwnSuffix} {
		if err != nil {
			return phone.Step{}, err
		}
		var step phone.Step
		if step, err = c.phone.Track(log); !step.Empty() {
			steps = append(steps, step)
		}
	}
	whole := join(steps)
	whole.Delete = append(whole.Delete, keyOff+id)
	return whole, err
}

// broughtBack notes that a removed job is back. It is called after the step is stored.
func (c *Core) broughtBack(id string) {
	delete(c.off, id)
	c.wantNews(id)
}

// removed reports whether the owner removed the job from this phone. It is false for a helper who borrows the phone.
func (c *Core) removed(id string) bool {
	_, off := c.off[id]
	return off && c.me.Role == job.Owner
}

// offJobs lists the jobs that the owner removed from this phone, by title.
func (c *Core) offJobs() []view.OffJob {
	if c.me.Role != job.Owner {
		return nil
	}
	var jobs []view.OffJob
	for id, title := range c.off {
		jobs = append(jobs, view.OffJob{ID: id, Title: title})
	}
	stable.Sort(jobs, func(a, b view.OffJob) int {
		return cmp.Or(cmp.Compare(a.Title, b.Title), cmp.Compare(a.ID, b.ID))
	})
	return jobs
}

func orUntitled(title string) string {
	if title == "" {
		return "The job"
	}
	return title
}

// rescueOff keeps the list of removed jobs when the storage was cleared, and returns entries that store it.
func (c *Core) rescueOff(was map[string]string) (own []Entry) {
	for id, title := range was {
		if _, there := c.off[id]; !there {
			c.off[id] = title
			own = append(own, Entry{keyOff + id, title})
		}
	}
	return own
}
