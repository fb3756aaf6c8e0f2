package device

import (
	"errors"
	"slices"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/phone"
	"garlandry/pwa/address"
)

// onDeleted notes which jobs the owner deleted.
func (c *Core) onDeleted(told me) {
	c.deleted, c.restorable = told.Deleted, 0
	for _, d := range told.Deleted {
		if !d.Gone {
			c.restorable++
		}
	}
}

// isDeleted reports whether the owner deleted the log's job.
func (c *Core) isDeleted(log string) bool {
	return slices.ContainsFunc(c.deleted, func(d meDeleted) bool { return d.ID == jobOf(log) })
}

// tidyDeleted takes one job that the owner deleted off this phone, and reports whether it did. What is not sent yet
// keeps the job here: it is sent first, and a deleted job keeps it. What a job that is gone for good refuses stays.
func (c *Core) tidyDeleted() bool {
	if c.me.Role != job.Owner || c.unposted > 0 {
		return false
	}
	for _, d := range c.deleted {
		busy := c.inFlight[d.ID] || c.inFlight[d.ID+sync.OwnSuffix]
		if !busy && len(c.logsOf(d.ID)) > 0 && len(c.losses(d.ID)) == 0 && c.dropJob(d.ID) == nil {
			return true
		}
	}
	return false
}

// dropJob takes one deleted job off this phone. A page of it gives way to the list of jobs.
func (c *Core) dropJob(id string) error {
	title, here := c.titleFor(id), c.jobHere() == id
	err := c.do(func() (phone.Step, []Entry, error) {
		var steps []phone.Step
		for _, log := range []string{id, id + sync.OwnSuffix} {
			step, err := c.phone.Remove(log, false)
			switch {
			case err == nil:
				steps = append(steps, step)
			case !errors.Is(err, phone.ErrUntracked):
				return phone.Step{}, nil, err
			}
		}
		return join(steps), nil, nil
	})
	if err != nil {
		return err
	}
	delete(c.readings, id)
	removed := Drawing{Type: "removed", Name: id} // the page forgets what it keeps of the job
	if here {
		c.messages = messages{flash: orUntitled(title) + " was deleted.", unread: true}
		c.current, c.shown = "", ""
		removed.Path = address.Home.Path()
	}
	c.Page.Draw(removed)
	return nil
}
