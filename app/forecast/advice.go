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
func (k *Cache) Advice(j job.Job, p *plan.Plan, now, ahead int64) (help *Advice, looking bool) {
	c := k.Forecast(j, p, now, ahead, "")
	last := k.last(j.ID)
	if last.advice != nil && last.advice.fingerprint == c.fingerprint || !c.Helpable() {
		return last.advice, false
	}
	work := func(pause func()) { k.advise(c, job.Try(j, nil), p, now, pause) } // of a copy: while it goes on the job may be ticked on
	if k.Later == nil {
		work(nil)
		return k.last(j.ID).advice, false
	}
	if last.forecast != c || !last.rough { // else it is asked for again with the plan that all is compared with
		k.Later(workKey("help "+j.ID, c.fingerprint), work)
	}
	return last.advice, true
}

func (k *Cache) advise(c *Forecast, j job.Job, p *plan.Plan, now int64, pause func()) {
	help := &Advice{c.fixes(&j, p, now, pause), c.cuts(p, pause), c.fingerprint}
	next := k.last(j.ID)
	next.advice = help
	k.answers.Put(j.ID, next)
}
