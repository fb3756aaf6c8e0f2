package plan

import "garlandry/app/job"

// Help is what would help the crew of a job, and what to leave out first.
type Help struct {
	Fixes []Fix
	Cuts  []Cut
	mark  uint64
}

// Help gives what would help, worked out once for as long as nothing changes that the plan depends on. Where that is done
// later it gives what helped before the job changed, nil if nothing is known, and reports that it is still looking.
func (k *Clocks) Help(j job.Job, p *Plan, now, ahead int64) (help *Help, looking bool) {
	c := k.Clock(j, p, now, ahead, "")
	last := k.last(j.ID)
	k.mu.Lock()
	kept := k.helps[j.ID]
	k.mu.Unlock()
	if kept != nil && kept.mark == c.mark || !c.Helpable() {
		return kept, false
	}
	if k.Later == nil {
		return k.help(c, &j, p, now, nil), false
	}
	if last.clock != c || !last.rough { // else it is asked for again with the plan that all is compared with
		k.Later(markKey("help "+j.ID, c.mark), func(pause func()) { k.help(c, &j, p, now, pause) })
	}
	return kept, true
}

func (k *Clocks) help(c *Clock, j *job.Job, p *Plan, now int64, pause func()) *Help {
	as := *j // while this goes on the job may be ticked on
	as.State, as.Private = job.NewState(), job.NewState()
	if j.State != nil {
		as.State = j.State.Clone()
	}
	if j.Private != nil {
		as.Private = j.Private.Clone()
	}
	help := &Help{c.fixes(&as, p, now, pause), c.cuts(p, pause), c.mark}
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.helps == nil || len(k.helps) >= mostKept {
		k.helps = map[string]*Help{}
	}
	k.helps[j.ID] = help
	return help
}
