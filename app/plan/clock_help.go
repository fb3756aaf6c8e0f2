package plan

import "garlandry/app/job"

// Help is what would help the crew of a job, and what to leave out first.
type Help struct {
	Fixes []Fix
	Cuts  []Cut
	mark  uint64
}

// Help gives what would help, worked out once for as long as nothing changes that the plan depends on. Where that is
// done later it gives what helped before the job changed, nil if nothing is known, and reports that it is still
// looking.
func (k *Clocks) Help(j job.Job, p *Plan, now, ahead int64) (help *Help, looking bool) {
	c := k.Clock(j, p, now, ahead, "")
	last := k.last(j.ID)
	if last.help != nil && last.help.mark == c.mark || !c.Helpable() {
		return last.help, false
	}
	work := func(pause func()) { k.help(c, job.Try(j, nil), p, now, pause) } // of a copy: while it goes on the job may be ticked on
	if k.Later == nil {
		work(nil)
		return k.last(j.ID).help, false
	}
	if last.clock != c || !last.rough { // else it is asked for again with the plan that all is compared with
		k.Later(markKey("help "+j.ID, c.mark), work)
	}
	return last.help, true
}

func (k *Clocks) help(c *Clock, j job.Job, p *Plan, now int64, pause func()) {
	help := &Help{c.fixes(&j, p, now, pause), c.cuts(p, pause), c.mark}
	next := *k.last(j.ID)
	next.help = help
	k.put(j.ID, &next)
}
