package device

import (
	"errors"
	"slices"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/sync"
	"garlandry/app/sync/phone"
)

// ready reads a job's logs from the storage. It reports false if the phone does not hold the job.
func (c *Core) ready(id string) (bool, error) {
	if err := c.loadLogs(id, id+sync.OwnSuffix); err != nil {
		return false, err
	}
	return slices.Contains(c.phone.Logs(), id), nil
}

func (c *Core) loadLog(log string) error { return c.loadLogs(log) }

// loadLogs reads what the logs of one job need from the storage. If another tab has written since the phone in memory
// was opened, the phone is opened again first.
func (c *Core) loadLogs(logs ...string) error {
	if c.isAside(logs[0]) {
		return errAside
	}
	defer c.working(logs[0])()
	for range attempts {
		wanting, spans := c.missing(logs)
		if len(wanting) == 0 {
			return nil
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
		for _, log := range wanting {
			if err := c.giveRows(log, found.Entries); errors.Is(err, errStale) {
				break
			} else if err != nil {
				return err
			}
		}
	}
	return errStale
}

// missing lists the logs that need something from the storage, and the spans they need.
func (c *Core) missing(logs []string) (wanting []string, spans []Span) {
	for _, log := range logs {
		wants := c.phone.Wants(log)
		for _, r := range wants {
			spans = append(spans, Span{r.From, r.To})
		}
		if len(wants) > 0 {
			wanting = append(wanting, log)
		}
	}
	return wanting, spans
}

// giveRows passes a log the entries that it needs. If that changes the storage and cannot be written, the phone is
// opened again, and the error says why.
func (c *Core) giveRows(log string, entries []Entry) error {
	var rows []phone.Row
	for _, r := range c.phone.Wants(log) {
		for _, e := range entries {
			if r.Has(e.Key) {
				rows = append(rows, phone.Row{Key: e.Key, Value: []byte(e.Text)})
			}
		}
	}
	step, err := c.phone.Give(log, rows)
	if err != nil {
		return err
	}
	if !step.Empty() { // some of it was lost, or never written
		c.designChanged(log)
	}
	if err = c.commit(step, nil); err != nil {
		return errors.Join(err, c.load())
	}
	return nil
}

// job reads a job as this phone shows it, unsent operations included.
func (c *Core) job(id string) (job.Job, bool) {
	if c.isAside(id) {
		return job.Job{}, false
	}
	defer c.working(id)()
	if there, err := c.ready(id); err != nil || !there {
		return job.Job{}, false
	}
	shared, loaded := c.phone.State(id)
	if !loaded || len(shared.Registers) == 0 || c.onlyAdopted(id, shared) {
		return job.Job{}, false
	}
	var private *job.State
	if c.me.Role == job.Owner { // nobody else may see what an earlier owner of this phone left here
		private, _ = c.phone.State(id + sync.OwnSuffix)
	}
	return c.read(id, shared, private), true
}

// reading caches a job by the revision of its design, which ticks do not change.
type reading struct {
	design  uint64
	private bool
	job     job.Job
}

func (c *Core) read(id string, shared, private *job.State) job.Job {
	last, there := c.readings[id]
	if !there || last.design != c.designs[id] || last.private != (private != nil) {
		last = reading{c.designs[id], private != nil, job.Read(id, shared, private)}
		c.readings[id] = last
	}
	last.job.State = shared
	if private != nil {
		last.job.Private = private
	}
	return last.job
}

// mine reports whether this person may see the log. The owner may see every log, a helper the shared log of the link's
// job. Logs of earlier users of the phone may still be here.
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

// jobIDs lists the jobs on this phone that this person may see, sorted.
func (c *Core) jobIDs() []string {
	var ids []string
	for _, log := range c.phone.Logs() {
		if !strings.HasSuffix(log, sync.OwnSuffix) && c.mine(log) {
			ids = append(ids, log)
		}
	}
	slices.Sort(ids)
	return ids
}

func (c *Core) plan(j job.Job) plan.Plan {
	defer c.working(j.ID)()
	return c.plans.Plan(j, plan.DesignFingerprint(j))
}

// designChanged notes that a job's design may have changed, so that it is read again.
func (c *Core) designChanged(id string) { c.designs[strings.TrimSuffix(id, sync.OwnSuffix)]++ }
