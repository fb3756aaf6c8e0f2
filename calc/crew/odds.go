package crew

import (
	"math"
	"slices"
	"strconv"

	"garlandry/calc/exact"
	"garlandry/calc/rng"
	"garlandry/calc/stable"
)

// Runs is the default number of simulations. The odds are then known to about one point in a hundred (standard error at
// most 0.0112).
const Runs = 2000

// Forecast is the result of simulating a schedule.
type Forecast struct {
	Done     float64       // share of runs in which all but the take-down is done by the doors
	Musts    float64       // share of runs in which all musts are done by the doors
	Shoulds  float64       // share of runs in which all musts and shoulds are done by the doors
	Half     int           // the minute by which half of the runs are done, rounded up
	Ninety   int           // the same for nine of ten runs
	Critical []Criticality // in the order of the job's tasks
	Runs     int
}

// Criticality is how often a task is on the critical path: the chain of what each task waited for, back from the task
// that ends last before the take-down.
type Criticality struct {
	Task  string
	Share float64 // of runs
}

// Odds simulates a schedule with random durations. The duration of a task is the planned one times two lognormal
// factors with mean 1. The first is for its kind of work in this run, with the spread of the job's rate. The second is
// its own: each person adds a part, so with n equal ones the spread falls with the square root of n, like that of a
// mean. Random numbers depend on the tasks' keys and kinds, so a change to one task does not change the others'
// numbers. Runs below 1 means Runs.
func (o Options) Odds(s Schedule) Forecast { return *s.odds(o.Seed, o.Runs, o.Pause) }

// runsAtOnce is the number of runs between two pauses.
const runsAtOnce = 8

func (s *Schedule) odds(seed uint64, runs int, pause func()) *Forecast {
	return s.oddsWith(&draws{seed: seed}, runs, pause)
}

func (s *Schedule) oddsWith(drawn *draws, runs int, pause func()) *Forecast {
	if runs < 1 {
		runs = Runs
	}
	f := &Forecast{Runs: runs, Done: 1, Musts: 1, Shoulds: 1}
	m := s.planned
	if m == nil {
		return f
	}
	f.Half, f.Ninety = m.job.Now, m.job.Now
	sim := newSimulator(s.network, m)
	if sim == nil || len(m.tasks) == 0 {
		return f
	}
	sim.leaveOutTakeDown()
	times := sim.taskTimes(drawn)
	finish, counts, onPath := make([]float64, runs), make([]int, len(m.tasks)), make([]int, len(m.tasks))
	var late lateRuns
	for run := range runs {
		if pause != nil && run%runsAtOnce == 0 {
			pause()
		}
		at, end := sim.simulate(times, run)
		finish[run] = end
		sim.count(&late, end)
		for ; at >= 0; at = sim.decided[at] {
			if task := sim.fitted[at].task; task >= 0 && onPath[task] <= run {
				onPath[task] = run + 1
				counts[task]++
			}
		}
	}
	sure := late.sure(runs)
	f.Musts, f.Shoulds, f.Done = sure[Must], sure[Should], sure[Could]
	stable.Floats(finish)
	f.Half, f.Ninety = quantile(finish, 50), quantile(finish, 90)
	f.Critical = make([]Criticality, len(m.tasks))
	for task := range m.tasks {
		c := &f.Critical[task]
		c.Task, c.Share = m.tasks[task].Key, float64(counts[task])/float64(runs)
	}
	return f
}

// simulate runs the network once with the times of a run. It returns the node that ends last before the doors, -1 if
// there is none, and when that is.
func (s *simulator) simulate(times *taskTimes, run int) (last int, end float64) {
	times.sample(run)
	s.run(times.factor, false)
	last, end = s.last(), float64(s.model.job.Now)
	if last >= 0 {
		end = later(end, s.ends[last])
	}
	return last, end
}

// surety is the odds of being done by the doors: of the musts, of these and the shoulds, and of all.
type surety [Could + 1]float64

// mustsCount is how much the odds of the musts weigh beside those of shoulds and of all. They come first, but a point
// of them is not bought with thirty of the rest. From memory, no source.
const mustsCount = 4

// better reports whether odds beat others by leastGain or more, all levels together. It counts hopeless odds as equal.
func (s *surety) better(than *surety) bool {
	var gain surety
	for level := range gain {
		gain[level] = hopeful(s[level]) - hopeful(than[level])
	}
	return float64(mustsCount*gain[Must])+gain[Should]+gain[Could] >= leastGain
}

// Hopeless is the odds below which only the end tells plans apart. In 200 runs the standard error of such odds is up to
// 0.015, so differences mean little. The limit is from memory, no source.
const Hopeless = 0.05

// hopeful returns odds, those that are hopeless as the limit.
func hopeful(odds float64) float64 { return max(odds, Hopeless) }

// lateRuns counts the runs in which a must is late, in which a must or a should is, and in which anything is.
type lateRuns [Could + 1]int

// sure returns the share of runs that are not late.
func (l *lateRuns) sure(runs int) (odds surety) {
	for level := range l {
		odds[level] = float64(runs-l[level]) / float64(runs)
	}
	return odds
}

// count adds the current run, which ends at a minute.
func (s *simulator) count(late *lateRuns, end float64) {
	if end > float64(s.model.job.Doors) {
		for level := s.firstLate(); level <= Could; level++ {
			late[level]++
		}
	}
}

// surety returns the odds of a plan. It stops as soon as they cannot be better than others any more.
func (s *Schedule) surety(than *surety, d *draws, runs int, pause func()) *surety {
	sim := newSimulator(s.network, s.planned)
	if sim == nil {
		return &surety{1, 1, 1}
	}
	sim.leaveOutTakeDown()
	times := sim.taskTimes(d)
	var late lateRuns
	for run := range runs {
		if pause != nil && run%runsAtOnce == 0 {
			pause()
		}
		_, end := sim.simulate(times, run)
		sim.count(&late, end)
		if most := late.sure(runs); end > float64(s.planned.job.Doors) && than != nil && !most.better(than) {
			break
		}
	}
	odds := late.sure(runs)
	return &odds
}

// last returns the node that ends last before the take-down, or -1.
func (s *simulator) last() int {
	last := -1
	for i := range s.nodes {
		if s.fitted[i].counts && (last < 0 || s.ends[i] > s.ends[last]) {
			last = i
		}
	}
	return last
}

// firstLate returns the priority of the most important task that ends after the doors, by its level; Could if none
// does.
func (s *simulator) firstLate() Priority {
	first, doors := Could, float64(s.model.job.Doors)
	for i := range s.nodes {
		if f := &s.fitted[i]; s.ends[i] > doors && f.counts && f.level < first {
			first = f.level
		}
	}
	return first
}

// quantile returns the smallest time that the given percentage does not exceed, rounded up.
func quantile(rising []float64, percent int) int {
	at := (len(rising)*percent + 99) / 100
	return int(math.Ceil(rising[max(0, at-1)] - 1e-6))
}

// leaveOutTakeDown drops the last nodes, up to one that must be done by the doors. Nothing waits for them, so the odds
// do not change.
func (s *simulator) leaveOutTakeDown() {
	n := len(s.nodes)
	for n > 0 && !s.fitted[n-1].counts {
		n--
	}
	s.nodes = s.nodes[:n]
}

// lognormal generates factors with mean 1, one a run.
type lognormal struct {
	source rng.Source
	spread float64 // standard deviation of the logarithm
	half   float64 // of its square
	kept   bool
	drawn  []float64 // if kept
}

func (l *lognormal) sample(run int) float64 {
	if !l.kept {
		return l.next()
	}
	for len(l.drawn) <= run {
		l.drawn = append(l.drawn, l.next())
	}
	return l.drawn[run]
}

func (l *lognormal) next() float64 {
	if l.spread <= 0 {
		return 1
	}
	return exact.Exp(float64(l.spread*l.source.Normal()) - l.half)
}

// draws gives the factors of a seed by name and spread. Compared plans of a job share kept ones, so each is drawn only
// once.
type draws struct {
	seed uint64
	kept map[drawKey]*lognormal // nil: none is kept
}

type drawKey struct {
	name   string
	spread float64
}

// newDraws returns draws that are kept.
func newDraws(seed uint64) *draws { return &draws{seed: seed, kept: map[drawKey]*lognormal{}} }

func (d *draws) lognormal(name string, spread float64) *lognormal {
	spread = max(0, min(2, spread))
	key := drawKey{name, spread}
	if l := d.kept[key]; l != nil {
		return l
	}
	l := &lognormal{source: rng.Named(d.seed, name), spread: spread, half: float64(spread*spread) / 2, kept: d.kept != nil}
	if l.kept {
		d.kept[key] = l
	}
	return l
}

// taskTimes generates the factors by which tasks take longer than planned. Each task and each kind of work has its own
// stream of random numbers, so leaving one out does not change the others.
type taskTimes struct {
	kinds  []*lognormal
	common []float64 // the factors of the kinds in the current run
	tasks  []taskTime
	factor []float64 // of each task of the job in the current run
}

type taskTime struct {
	own        *lognormal
	task, kind int
}

// sample sets the factors of one run.
func (t *taskTimes) sample(run int) {
	for i := range t.kinds {
		t.common[i] = t.kinds[i].sample(run)
	}
	for i := range t.tasks {
		task := &t.tasks[i]
		t.factor[task.task] = float64(task.own.sample(run) * t.common[task.kind])
	}
}

// taskTimes returns the factors of the tasks with work among the nodes.
func (s *simulator) taskTimes(d *draws) *taskTimes {
	m, times := s.model, &taskTimes{factor: make([]float64, len(s.model.tasks))}
	names, added := []string(nil), make([]bool, len(m.tasks))
	for i := range s.nodes {
		old := s.nodes[i].task
		task := s.same[old]
		if task < 0 || added[task] || m.work[task] == 0 {
			continue
		}
		added[task] = true
		t := &m.tasks[task]
		kind := slices.Index(names, t.Kind)
		if kind < 0 {
			kind, names = len(names), append(names, t.Kind)
			_, _, spread := m.job.rate(t.Kind)
			times.kinds = append(times.kinds, d.lognormal("kind "+strconv.Quote(t.Kind), spread))
		}
		own := d.lognormal("task "+strconv.Quote(t.Key), t.spreadOf(s.hands[1][old], s.hands[0][old]))
		times.tasks = append(times.tasks, taskTime{own, task, kind})
	}
	times.common = make([]float64, len(names))
	return times
}
