package crew

import (
	"math"
	"slices"
	"strconv"

	"garlandry/calc/exact"
	"garlandry/calc/rng"
)

// Runs is how often a schedule is simulated by default. The odds are then known to about
// one point in a hundred (standard error at most 0.0112).
const Runs = 2000

// Forecast is the result of simulating a schedule.
type Forecast struct {
	Done     float64       // share of runs in which all but the take-down is done by the doors
	Musts    float64       // share in which what must be there is, be the rest left out or late
	Half     int           // the minute by which it is done in half of the runs, rounded up
	Ninety   int           // in nine of ten
	Critical []Criticality // in the order of the job's tasks
	Runs     int
}

// Criticality is how often a task is on the path that decides when all but the
// take-down is done: the chain, back from the task that ends last, of what each
// waited for.
type Criticality struct {
	Task  string
	Share float64 // of runs
}

// Odds simulates a schedule with uncertain times. The time of a task is its planned one
// times two lognormal factors with mean 1. The first is for its kind of work in this run,
// with the spread of the job's rate. The second is its own: each pair of hands adds its
// part, so that with n equal ones the spread falls with the square root of n, like that of
// a mean. Random numbers are drawn by the tasks' keys and kinds, so a change to one task
// leaves the others' numbers as they were. Runs below 1 are read as Runs.
func (o Options) Odds(s Schedule) Forecast { return *s.odds(o.Seed, o.Runs, o.Pause) }

// runsAtOnce is how many runs are simulated between two pauses.
const runsAtOnce = 8

func (s *Schedule) odds(seed uint64, runs int, pause func()) *Forecast {
	if runs < 1 {
		runs = Runs
	}
	f := &Forecast{Runs: runs, Done: 1, Musts: 1}
	m := s.planned
	if m == nil {
		return f
	}
	f.Half, f.Ninety = m.job.Now, m.job.Now
	p := newPlayer(s.network, m)
	if p == nil || len(m.tasks) == 0 {
		return f
	}
	p.leaveOutTakeDown()
	times := p.taskTimes(seed)
	factor, finish := floats(len(m.tasks)), floats(runs)
	counts, onPath := ints(len(m.tasks)), ints(len(m.tasks))
	late, without := 0, 0
	for run := range runs {
		if pause != nil && run%runsAtOnce == 0 {
			pause()
		}
		times.sample(factor)
		p.run(factor, false)
		at := p.last()
		end := float64(m.job.Now)
		if at >= 0 {
			end = later(end, p.ends[at])
		}
		finish[run] = end
		if end > float64(m.job.Doors) {
			late++
		}
		if p.mustsLate() {
			without++
		}
		for ; at >= 0; at = p.decided[at] {
			if task := p.same[p.nodes[at].task]; task >= 0 && onPath[task] <= run {
				onPath[task] = run + 1
				counts[task]++
			}
		}
	}
	f.Done, f.Musts = float64(runs-late)/float64(runs), float64(runs-without)/float64(runs)
	slices.Sort(finish)
	f.Half, f.Ninety = quantile(finish, 50), quantile(finish, 90)
	f.Critical = make([]Criticality, len(m.tasks))
	for task := range m.tasks {
		c := &f.Critical[task]
		c.Task, c.Share = m.tasks[task].Key, float64(counts[task])/float64(runs)
	}
	return f
}

// last returns the node that ends last of those before the doors, -1 if there is none.
func (p *player) last() int {
	last := -1
	for i := range p.nodes {
		if task := p.same[p.nodes[i].task]; task < 0 || p.model.tasks[task].Place == TakeDown {
			continue
		}
		if last < 0 || p.ends[i] > p.ends[last] {
			last = i
		}
	}
	return last
}

// mustsLate reports whether a must, by its level, ends after the doors.
func (p *player) mustsLate() bool {
	doors := float64(p.model.job.Doors)
	for i := range p.nodes {
		if task := p.same[p.nodes[i].task]; p.ends[i] > doors && task >= 0 && p.model.level[task] == Must &&
			p.model.tasks[task].Place != TakeDown {
			return true
		}
	}
	return false
}

// quantile returns the smallest time that this many in a hundred do not exceed, rounded up.
func quantile(rising []float64, percent int) int {
	at := (len(rising)*percent + 99) / 100
	return int(math.Ceil(rising[max(0, at-1)] - 1e-6))
}

// leaveOutTakeDown drops the last nodes, up to one that must be done by the doors. Nothing
// waits for them, so the odds are the same without.
func (p *player) leaveOutTakeDown() {
	n := len(p.nodes)
	for n > 0 {
		if task := p.same[p.nodes[n-1].task]; task >= 0 && p.model.tasks[task].Place != TakeDown {
			break
		}
		n--
	}
	p.nodes = p.nodes[:n]
}

// lognormal draws factors with mean 1.
type lognormal struct {
	source rng.Source
	spread float64 // standard deviation of the logarithm
}

func (l *lognormal) sample() float64 {
	if l.spread <= 0 {
		return 1
	}
	return exact.Exp(float64(l.spread*l.source.Normal()) - float64(l.spread*l.spread)/2)
}

// taskTimes draws the factors by which tasks take longer than planned. Each task and each kind of work has its own
// stream of random numbers, so leaving one out does not change the others.
type taskTimes struct {
	kinds  []lognormal
	common []float64 // the factors of the kinds in the current run
	tasks  []taskTime
}

type taskTime struct {
	own        lognormal
	task, kind int
}

// sample sets the factors of one run.
func (t *taskTimes) sample(factor []float64) {
	for i := range t.kinds {
		t.common[i] = t.kinds[i].sample()
	}
	for i := range t.tasks {
		task := &t.tasks[i]
		factor[task.task] = float64(task.own.sample() * t.common[task.kind])
	}
}

// taskTimes are those of the tasks with work among the nodes.
func (p *player) taskTimes(seed uint64) *taskTimes {
	m, times := p.model, &taskTimes{}
	names, added := []string(nil), make([]bool, len(m.tasks))
	for i := range p.nodes {
		old := p.nodes[i].task
		task := p.same[old]
		if task < 0 || added[task] || m.work[task] == 0 {
			continue
		}
		added[task] = true
		t := &m.tasks[task]
		kind := slices.Index(names, t.Kind)
		if kind < 0 {
			kind, names = len(names), append(names, t.Kind)
			_, _, spread := m.job.rate(t.Kind)
			times.kinds = append(times.kinds, newLognormal(seed, "kind "+strconv.Quote(t.Kind), spread))
		}
		own := newLognormal(seed, "task "+strconv.Quote(t.Key), t.spreadOf(p.hands[1][old], p.hands[0][old]))
		times.tasks = append(times.tasks, taskTime{own, task, kind})
	}
	times.common = floats(len(names))
	return times
}

func newLognormal(seed uint64, name string, spread float64) lognormal {
	return lognormal{rng.Named(seed, name), clamp(spread)}
}

func clamp(spread float64) float64 { return max(0, min(2, spread)) }
