package forecast

import (
	"garlandry/app/job"
	"garlandry/app/plan"
)

// Help is what would help the crew of a job, and what to leave out first.
type Advice struct {
	Fixes       []Fix
	Cuts        []Cut
	fingerprint uint64
}

// Help gives what would help, worked out once for as long as nothing changes that the plan depends on. Where that is
// done later it gives what helped before the job changed, nil if nothing is known, and reports that it is still
// looking.
func (c *Cache) Advice(j job.Job, p *plan.Plan, now, ahead int64) (help *Advice, looking bool) {
	f := c.Forecast(j, p, now, ahead, "")
	last := c.last(j.ID)
	if last.advice != nil && last.advice.fingerprint == f.fingerprint || !f.Helpable() {
		return last.advice, false
	}
	work := func(pause func()) { c.advise(f, job.Try(j, nil), p, now, pause) } // of a copy: while it goes on the job may be ticked on
	if c.Later == nil {
		work(nil)
		return c.last(j.ID).advice, false
	}
	if last.forecast != f || !last.rough { // else it is asked for again with the plan that all is compared with
		c.Later(workKey("help "+j.ID, f.fingerprint), work)
	}
	return last.advice, true
}

func (c *Cache) advise(f *Forecast, j job.Job, p *plan.Plan, now int64, pause func()) {
	help := &Advice{f.fixes(&j, p, now, pause), f.cuts(p, pause), f.fingerprint}
	next := c.last(j.ID)
	next.advice = help
	c.answers.Put(j.ID, next)
}
