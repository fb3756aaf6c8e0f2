package crew

import "errors"

// ErrChanged is returned when a schedule no longer fits: a task of the job is not in it, somebody in it is not in the
// job, or somebody practised in it is a beginner in the job.
var ErrChanged = errors.New("the plan does not fit the job any more: make a new one")

// Carry keeps the order and the teams of a schedule for a changed job: tasks with more or less work, or left out, other
// windows, more people, beginners who are practised now, at a beginner's speed. With less work or more time nothing
// ends later than in the schedule, and its odds under the same seed are no worse.
func Carry(s Schedule, job Job) (Schedule, error) {
	kept, err := s.carry(&job)
	if err != nil {
		return Schedule{}, err
	}
	return *kept, nil
}

func (s *Schedule) carry(job *Job) (*Schedule, error) {
	m, err := newModel(job)
	if err != nil {
		return nil, err
	}
	if s.planned == nil {
		return nil, ErrChanged
	}
	sim := newSimulator(s.network, m)
	if sim == nil {
		return nil, ErrChanged
	}
	sim.arrivals, sim.teams = make([][]float64, len(sim.nodes)), make([][]int, len(sim.nodes))
	sim.run(nil, true)
	starts, ends := make([]int, len(m.tasks)), make([]int, len(m.tasks))
	var spells []spell
	for i := range starts {
		starts[i] = forever
	}
	for i := range sim.nodes {
		task := sim.same[sim.nodes[i].task]
		if task < 0 {
			continue
		}
		starts[task] = min(starts[task], int(sim.starts[i]))
		ends[task] = max(ends[task], int(sim.ends[i]))
		spells = sim.spellsOf(spells, i, task)
	}
	kept := &Schedule{Tried: s.Tried, planned: m, network: s.network}
	kept.lay(m, starts, ends, spells)
	return kept, nil
}

// spellsOf adds the times that each person was on a node: from their arrival to its end, except while they were away.
func (s *simulator) spellsOf(spells []spell, i, task int) []spell {
	n := &s.nodes[i]
	for k, person := range s.teams[i] {
		if person < 0 {
			continue
		}
		from, to := int(s.starts[i]), int(s.ends[i])
		here := []Interval{{from, to}}
		if s.model.tasks[task].Splittable {
			if n.rest {
				from = int(s.arrivals[i][k])
			}
			here = s.calendar(n.task, person)
		}
		for at := range here {
			if begin, end := max(from, here[at].From), min(to, here[at].To); begin < end {
				spells = append(spells, spell{task, s.who[person], begin, end})
			}
		}
	}
	return spells
}
