package device

import (
	"errors"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/sync"
	"garlandry/calc/order"
)

// ready makes a job's logs usable: what is stored of them is read. It reports false if the phone does not hold the job,
// or holds nothing of it yet.
func (c *Core) ready(id string) (bool, error) {
	held := false
	for _, log := range c.phone.Logs() {
		if log == id || log == id+sync.OwnSuffix {
			held = held || log == id
			if err := c.loadLog(log); err != nil {
				return false, err
			}
		}
	}
	return held, nil
}

// loadLog reads what a log wants of the storage until it wants nothing more. What another tab has written meanwhile does
// not fit the phone in memory, so that is loaded anew first.
func (c *Core) loadLog(log string) error {
	for range attempts {
		wants := c.phone.Wants(log)
		if len(wants) == 0 {
			return nil
		}
		spans := make([]Span, len(wants))
		for i, r := range wants {
			spans[i] = Span{r.From, r.To}
		}
		found, err := c.Disk.Read(spans...)
		if err != nil {
			return err
		}
		if found.Generation != c.base.generation {
			if err := c.load(); err != nil {
				return err
			}
			continue
		}
		step, err := c.phone.Give(log, toRows(found.Entries))
		if err != nil {
			return err
		}
		if !step.Empty() { // some of it is lost, or was never taken
			c.designChanged(log)
		}
		if err := c.commit(step, nil); err != nil {
			if loadErr := c.load(); loadErr != nil || !errors.Is(err, errStale) {
				return errors.Join(err, loadErr)
			}
		}
	}
	return errStale
}

// job reads a job as this phone shows it: with what it has not sent yet.
func (c *Core) job(id string) (job.Job, bool) {
	if there, err := c.ready(id); err != nil || !there {
		return job.Job{}, false
	}
	shared, loaded := c.phone.State(id)
	if !loaded || len(shared.Registers) == 0 {
		return job.Job{}, false
	}
	var private *job.State
	if c.me.Role == job.Owner { // what an earlier owner of this phone left here is nobody else's to see
		private, _ = c.phone.State(id + sync.OwnSuffix)
	}
	return c.read(id, shared, private), true
}

// reading is a job as it was read last. A tick leaves it as it is, so that it need not be read again for each.
type reading struct {
	mark    uint64
	private bool
	job     job.Job
}

func (c *Core) read(id string, shared, private *job.State) job.Job {
	last, there := c.readings[id]
	if !there || last.mark != c.designs[id] || last.private != (private != nil) {
		last = reading{c.designs[id], private != nil, job.Read(id, shared, private)}
		c.readings[id] = last
	}
	last.job.State = shared
	if private != nil {
		last.job.Private = private
	}
	return last.job
}

// mine reports whether the person whom this phone is let in as may see the log here: the owner every one, a helper the
// shared one of a job that the link is for. Others may be here still, from whoever had the phone before.
func (c *Core) mine(log string) bool {
	if c.me.Role == job.Owner {
		return true
	}
	for _, j := range c.me.Jobs {
		if j.ID == log {
			return true
		}
	}
	return false
}

// jobIDs lists the jobs on this phone that may be seen, sorted.
func (c *Core) jobIDs() []string {
	var ids []string
	for _, log := range c.phone.Logs() {
		if !strings.HasSuffix(log, sync.OwnSuffix) && c.mine(log) {
			ids = append(ids, log)
		}
	}
	order.Strings(ids)
	return ids
}

func (c *Core) plan(j job.Job) plan.Plan { return c.plans.Plan(j, c.designs[j.ID]) }

// designChanged notes that a job's design may have changed, so that its plan is made anew.
func (c *Core) designChanged(id string) { c.designs[strings.TrimSuffix(id, sync.OwnSuffix)]++ }

// progressOnly reports whether the entity is about what was done, not about what is planned.
func progressOnly(entity string) bool {
	return strings.HasPrefix(entity, "card/") || strings.HasPrefix(entity, "pack/")
}
