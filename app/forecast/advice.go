package forecast

import (
	"bytes"
	"cmp"
	"slices"

	"garlandry/app/job"
	"garlandry/app/plan"
)

// Advice is what would help the crew, and what to leave out first.
type Advice struct {
	Fixes       []Fix
	Cuts        []Cut
	fingerprint uint64
}

// Advice returns advice for a job and what [Cache.Forecast] returned for it. In the background it takes a while: until
// then Advice returns what helped before the job changed and is still to be had, or nil, and reports that it is still
// looking.
func (c *Cache) Advice(f *Forecast, j job.Job, p *plan.Plan, now int64) (help *Advice, looking bool) {
	last := c.last(j.ID)
	if last.advice != nil && last.advice.fingerprint == f.fingerprint || !f.Helpable() {
		return last.advice, false
	}
	// The job may be ticked meanwhile, so work on a copy.
	work := func(pause func()) { c.advise(f, job.Try(j, nil), p, now, pause) }
	if c.Later == nil {
		work(nil)
		return c.last(j.ID).advice, false
	}
	if last.forecast != f || last.budget == &Usual { // otherwise wait for that plan
		c.Later(workKey("help "+j.ID, f.fingerprint), work)
	}
	return last.advice.left(&j), true
}

// left returns the advice without the fixes of which the job has a part by now, or nil if none is left. It returns the
// advice itself if all are.
func (a *Advice) left(j *job.Job) *Advice {
	if a == nil {
		return nil
	}
	fixes := slices.DeleteFunc(slices.Clone(a.Fixes), func(f Fix) bool {
		return slices.ContainsFunc(f.Mitigations, func(m *Mitigation) bool { return m.in(j) })
	})
	switch len(fixes) {
	case len(a.Fixes):
		return a
	case 0:
		return nil
	}
	return &Advice{fixes, a.Cuts, a.fingerprint}
}

// in reports whether a job has all that the mitigation would change.
func (m *Mitigation) in(j *job.Job) bool {
	return !slices.ContainsFunc(m.Changes, func(c job.Change) bool {
		return cmp.Or(c.Kind, job.Set) != job.Set || !bytes.Equal(j.State.Register(c.Entity, c.Field).Value(), c.Value)
	})
}

// Known returns the advice for a forecast if it is worked out already, else nil.
func (c *Cache) Known(f *Forecast, j job.Job) *Advice {
	if last := c.last(j.ID); last.advice != nil && f.Planned() && last.advice.fingerprint == f.fingerprint {
		return last.advice
	}
	return nil
}

func (c *Cache) advise(f *Forecast, j job.Job, p *plan.Plan, now int64, pause func()) {
	help := &Advice{f.fixes(&j, p, now, pause), f.cuts(p, pause), f.fingerprint}
	next := c.last(j.ID)
	next.advice = help
	c.answers.Put(j.ID, next)
}
