package crew

import (
	"fmt"
	"slices"
	"strconv"
)

// demand is a need with the index of its thing.
type demand struct{ thing, units, serves int }

// unitsFor returns how many units this many hands occupy.
func (d demand) unitsFor(hands int) int {
	if d.serves == 0 {
		return d.units
	}
	return d.units * ((hands + d.serves - 1) / d.serves)
}

// model is a checked job with indices instead of keys. Side 0 runs forwards, side 1 backwards.
type model struct {
	job    *Job
	tasks  []Task // with defaults filled in
	work   []int  // thousandths of person-minutes, at the job's rates
	speed  []speeds
	needs  [][]demand
	taken  [][]int  // people who took each task
	barred [][]bool // of each task: the people who may not do it; nil: nobody is barred
	before [2][][]int
	cals   [2][places][]calendar
	last   [places]int // when everyone begins to stay on
	rank   []int       // higher than that of any task that it waits for
	order  []int       // tasks by rank
	level  []Priority  // of each task: its own, or the lowest of the tasks on site that it waits for
	mixed  [places]bool
	hands  [places]int // number of people who go there
}

// Limits that prevent overflow in sums of minutes and thousandths.
const (
	maxMinutes = 100_000
	maxTasks   = 2_000
	maxPeople  = 60
)

func newModel(job *Job) (*model, error) {
	n := len(job.Tasks)
	if n > maxTasks || len(job.People) > maxPeople || job.Drive < 0 || job.Drive > maxMinutes {
		return nil, about("tasks, people or the drive", ErrAmount)
	}
	m := &model{job: job, tasks: append([]Task(nil), job.Tasks...), work: make([]int, n), speed: make([]speeds, n),
		needs: make([][]demand, n), taken: make([][]int, n), barred: make([][]bool, n), rank: make([]int, n)}
	for place := range places {
		m.addPlace(place)
	}
	for i := range m.tasks {
		key := m.tasks[i].Key
		err := m.addTask(i)
		if m.number(key, 0) != i {
			err = ErrTwice
		}
		if err != nil {
			return nil, about("task "+strconv.Quote(key), err)
		}
	}
	return m, m.connect()
}

func about(what string, err error) error { return fmt.Errorf("%s: %w", what, err) }

// number returns the index of the task with a key, or -1. It tries a guess first.
func (m *model) number(key string, guess int) int {
	if guess < len(m.tasks) && m.tasks[guess].Key == key {
		return guess
	}
	for i := range m.tasks {
		if m.tasks[i].Key == key {
			return i
		}
	}
	return -1
}

func (m *model) addPlace(place Place) {
	cals, last := m.job.calendars(place)
	m.last[place] = last
	back := make([]calendar, len(cals))
	practised := 0
	for i := range cals {
		if cals[i] == nil {
			continue
		}
		back[i] = cals[i].mirrored()
		m.hands[place]++
		if m.job.People[i].Practised {
			practised++
		}
	}
	m.cals[0][place], m.cals[1][place] = cals, back
	m.mixed[place] = practised > 0 && practised < m.hands[place]
}

func inRange(x, low, high float64) bool { return x >= low && x <= high }

func (m *model) addTask(i int) error {
	t := &m.tasks[i]
	_, factor, _ := m.job.rate(t.Kind)
	if !inRange(t.Minutes, 0, maxMinutes) || !inRange(t.Crowding, 0, 0.5) || !inRange(t.Spread, 0, 2) ||
		!inRange(t.Unsteady, 0, 2) || !inRange(t.Beginner, 0, 100) ||
		!inRange(factor, 0.01, 100) || t.Place >= places || t.Least > maxPeople ||
		t.From > forever/4 {
		return ErrAmount
	}
	t.Least = max(1, t.Least)
	hands := m.bar(i)
	t.Most = min(max(t.Most, t.Least), max(t.Least, hands))
	if hands < t.Least {
		return ErrTooFew
	}
	work := float64(1000 * float64(t.Minutes*factor))
	m.work[i] = int(work + 0.5)
	m.speed[i] = newSpeeds(t)
	demands := make([]demand, len(t.Needs))
	m.needs[i] = demands
	for k := range demands {
		need, d := &t.Needs[k], &demands[k]
		there := 0
		for thing := range m.job.Things {
			if m.job.Things[thing].Key == need.Thing {
				d.thing, there = thing, m.job.Things[thing].Count
			}
		}
		d.units, d.serves = max(1, need.Units), max(0, need.Serves)
		if d.unitsFor(t.Least) > there {
			return about(strconv.Quote(need.Thing), ErrMissing)
		}
		for t.Most > t.Least && d.unitsFor(t.Most) > there {
			t.Most--
		}
	}
	m.pin(i)
	return nil
}

// bar finds the people who may not do a task. It returns how many at its place may.
func (m *model) bar(task int) (hands int) {
	t := &m.tasks[task]
	if len(t.By) == 0 {
		return m.hands[t.Place]
	}
	m.barred[task] = make([]bool, len(m.job.People))
	for person := range m.job.People {
		m.barred[task][person] = !slices.Contains(t.By, m.job.People[person].Key)
		if m.cals[0][t.Place][person] != nil && m.may(task, person) {
			hands++
		}
	}
	return hands
}

// may reports whether a person may do a task if they are at its place.
func (m *model) may(task, person int) bool { return m.barred[task] == nil || !m.barred[task][person] }

// pin finds the indices of the people who took a task.
func (m *model) pin(task int) {
	t := &m.tasks[task]
	for person, cal := range m.cals[0][t.Place] {
		if cal != nil && m.may(task, person) &&
			cal[0].From < max(m.last[t.Place], m.job.Now+1) && len(m.taken[task]) < t.Most &&
			slices.Contains(t.Taken, m.job.People[person].Key) {
			m.taken[task] = append(m.taken[task], person)
		}
	}
	if !t.Splittable {
		t.Least = max(t.Least, len(m.taken[task]))
	}
}

// took reports whether a person took a task.
func (m *model) took(task, person int) bool {
	for _, taker := range m.taken[task] {
		if taker == person {
			return true
		}
	}
	return false
}

// rate returns the index and the rate of a kind. Without a rate the index is -1 and the factor a certain 1.
func (j *Job) rate(kind string) (at int, factor, spread float64) {
	for i := range j.Rates {
		rate := &j.Rates[i]
		if rate.Kind == kind {
			if rate.Factor == 0 {
				return i, 1, rate.Spread
			}
			return i, rate.Factor, rate.Spread
		}
	}
	return -1, 1, 0
}

// connect links tasks to those they wait for. Work on site waits for all loading.
func (m *model) connect() error {
	n := len(m.tasks)
	m.before[0], m.before[1] = make([][]int, n), make([][]int, n)
	for i := range m.tasks {
		t := &m.tasks[i]
		for _, key := range t.Before {
			m.join(m.number(key, 0), i)
		}
		for k := range m.tasks {
			if t.Place == Site && m.tasks[k].Place == Load {
				m.join(k, i)
			}
		}
	}
	return m.sort()
}

func (m *model) join(first, then int) {
	if first < 0 {
		return
	}
	for _, known := range m.before[0][then] {
		if known == first {
			return
		}
	}
	m.before[0][then] = append(m.before[0][then], first)
	m.before[1][first] = append(m.before[1][first], then)
}

func (m *model) sort() error {
	waiting := make([]int, len(m.tasks))
	var order []int
	for i := range waiting {
		if waiting[i] = len(m.before[0][i]); waiting[i] == 0 {
			order = append(order, i)
		}
	}
	for at := 0; at < len(order); at++ {
		task := order[at]
		m.rank[task] = at
		for _, next := range m.before[1][task] {
			if waiting[next]--; waiting[next] == 0 {
				order = append(order, next)
			}
		}
	}
	m.order = order
	if len(order) < len(waiting) {
		return ErrCircle
	}
	m.setLevels()
	return nil
}

// setLevels sets the priority of each task for the order of musts. A task that ends a job, such as sweeping, counts as
// a must only after the last could, although it is never left out.
func (m *model) setLevels() {
	m.level = make([]Priority, len(m.tasks))
	for _, task := range m.order {
		m.level[task] = min(m.tasks[task].Priority, Could)
		for _, before := range m.before[0][task] {
			if m.tasks[before].Place == Site {
				m.level[task] = max(m.level[task], m.level[before])
			}
		}
	}
}

// lag returns the minutes between the end of a task and the start of one that waits for it.
func (m *model) lag(first, then int) int {
	if m.tasks[first].Place == Load && m.tasks[then].Place == Site {
		return m.job.Drive
	}
	return 0
}

// earliest returns the minute before which a task must not begin.
func (m *model) earliest(task int) int {
	if from := m.tasks[task].From; from > 0 {
		return max(m.job.Now, from)
	}
	return m.job.Now
}
