package crew

import (
	"fmt"
	"strconv"
)

// demand is a need by number.
type demand struct{ thing, units, serves int }

// unitsFor is how many units so many hands keep.
func (d demand) unitsFor(hands int) int {
	if d.serves == 0 {
		return d.units
	}
	return d.units * ((hands + d.serves - 1) / d.serves)
}

// model is a job by numbers, checked. Side 0 runs forwards, side 1 backwards.
type model struct {
	job    *Job
	tasks  []Task // with defaults filled in
	work   []int  // thousandths of person-minutes, at the believed rate
	speed  []speeds
	needs  [][]demand
	before [2][][]int
	cals   [2][places][]calendar
	rank   []int // a task comes after all that it waits for
	order  []int // tasks by rank
	mixed  [places]bool
	hands  [places]int // people who go there
}

// Limits that keep sums of minutes and thousandths far from overflowing.
const (
	maxMinutes = 100_000
	maxTasks   = 2_000
	maxPeople  = 60
)

func newModel(job Job) (*model, error) {
	m := &model{job: &job, tasks: append([]Task(nil), job.Tasks...)}
	if len(job.Tasks) > maxTasks || len(job.People) > maxPeople || job.Drive < 0 || job.Drive > maxMinutes {
		return nil, fmt.Errorf("%d tasks, %d people, %d minutes' drive: %w", len(job.Tasks), len(job.People), job.Drive, ErrAmount)
	}
	for place := range places {
		m.cals[0][place] = job.calendars(place)
		m.cals[1][place] = make([]calendar, len(job.People))
		practised := 0
		for i, c := range m.cals[0][place] {
			if c == nil {
				continue
			}
			m.cals[1][place][i] = c.mirrored()
			m.hands[place]++
			if job.People[i].Practised {
				practised++
			}
		}
		m.mixed[place] = practised > 0 && practised < m.hands[place]
	}
	numbers := make(map[string]int, len(m.tasks))
	for i, task := range m.tasks {
		if _, twice := numbers[task.Key]; twice {
			return nil, fmt.Errorf("task %s: %w", strconv.Quote(task.Key), ErrTwice)
		}
		numbers[task.Key] = i
	}
	for i := range m.tasks {
		if err := m.addTask(i); err != nil {
			return nil, fmt.Errorf("task %s: %w", strconv.Quote(m.tasks[i].Key), err)
		}
	}
	return m, m.connect(numbers)
}

func inRange(x, low, high float64) bool { return x >= low && x <= high }

func (m *model) addTask(i int) error {
	t := &m.tasks[i]
	factor := m.job.rate(t.Kind).Factor
	if !inRange(t.Minutes, 0, maxMinutes) || !inRange(t.Crowding, 0, 0.5) || !inRange(t.Spread, 0, 2) || !inRange(t.Beginner, 0, 100) ||
		!inRange(factor, 0.01, 100) || t.Place >= places || t.Least > maxPeople || t.From > forever/4 {
		return ErrAmount
	}
	t.Least = max(1, t.Least)
	t.Most = min(max(t.Most, t.Least), max(t.Least, m.hands[t.Place]))
	if m.hands[t.Place] < t.Least {
		return ErrTooFew
	}
	work := float64(1000 * float64(t.Minutes*factor))
	m.work = append(m.work, int(work+0.5))
	m.speed = append(m.speed, newSpeeds(*t))
	var demands []demand
	for _, need := range t.Needs {
		at, there := -1, 0
		for k, thing := range m.job.Things {
			if thing.Key == need.Thing {
				at, there = k, thing.Count
			}
		}
		d := demand{at, max(1, need.Units), max(0, need.Serves)}
		if d.unitsFor(t.Least) > there {
			return fmt.Errorf("%s: %w", strconv.Quote(need.Thing), ErrMissing)
		}
		for t.Most > t.Least && d.unitsFor(t.Most) > there {
			t.Most--
		}
		demands = append(demands, d)
	}
	m.needs = append(m.needs, demands)
	return nil
}

// rate is the belief about a kind; a factor of 1 that is certain if there is none.
func (j *Job) rate(kind string) Rate {
	for _, rate := range j.Rates {
		if rate.Kind == kind {
			if rate.Factor == 0 {
				rate.Factor = 1
			}
			return rate
		}
	}
	return Rate{Kind: kind, Factor: 1}
}

// connect lays out what comes before what. Work on site waits for all loading.
func (m *model) connect(numbers map[string]int) error {
	n := len(m.tasks)
	m.before[0], m.before[1] = make([][]int, n), make([][]int, n)
	join := func(first, then int) {
		for _, known := range m.before[0][then] {
			if known == first {
				return
			}
		}
		m.before[0][then] = append(m.before[0][then], first)
		m.before[1][first] = append(m.before[1][first], then)
	}
	for i, task := range m.tasks {
		for _, key := range task.Before {
			if first, known := numbers[key]; known {
				join(first, i)
			}
		}
		for k, other := range m.tasks {
			if task.Place == Site && other.Place == Load {
				join(k, i)
			}
		}
	}
	return m.sort()
}

func (m *model) sort() error {
	m.rank = make([]int, len(m.tasks))
	waiting := make([]int, len(m.tasks))
	for i := range waiting {
		if waiting[i] = len(m.before[0][i]); waiting[i] == 0 {
			m.order = append(m.order, i)
		}
	}
	for at := 0; at < len(m.order); at++ {
		m.rank[m.order[at]] = at
		for _, next := range m.before[1][m.order[at]] {
			if waiting[next]--; waiting[next] == 0 {
				m.order = append(m.order, next)
			}
		}
	}
	if len(m.order) < len(m.tasks) {
		return ErrCircle
	}
	return nil
}

// lag is the minutes between the end of a task and the start of one that waits for it.
func (m *model) lag(first, then int) int {
	if m.tasks[first].Place == Load && m.tasks[then].Place == Site {
		return m.job.Drive
	}
	return 0
}

// earliest is the minute before which a task may not begin.
func (m *model) earliest(task int) int {
	if from := m.tasks[task].From; from > 0 {
		return max(m.job.Now, from)
	}
	return m.job.Now
}
