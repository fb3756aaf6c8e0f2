package rcpsp

import "errors"

// Task is one activity.
type Task struct {
	Duration int   // whole units of time, 0 or more
	Needs    []int // of each resource while it runs; a missing one is 0
	After    []int // the tasks that must finish first, by number
}

// ErrCannot is returned for a project that no schedule satisfies: a cycle, a
// number out of range, or a task that needs more than there is.
var ErrCannot = errors.New("the tasks wait for each other in a circle, or one needs more than there is")

// Project is a set of tasks that has been checked and laid out for scheduling.
// It may be shared between searches that do not run at the same time.
type Project struct {
	duration []int
	before   [2][][]int // predecessors; mirrored: successors
	after    [2][][]int
	needs    [][]int
	capacity []int
	packed   [][]uint64 // needs in lanes of 16 bits, see profile
	full     []uint64
	weight   []int
	critical int // length of the longest path
	bound    int
	horizon  int
	tail     [2][]int // longest path from a task's start to the end; mirrored: from its finish to the beginning
	profile  profile
	waiting  []int
	ready    []int
	ordered  []int
	heap     []int
}

// maxCapacity is what fits a lane of the profile.
const maxCapacity = 1<<15 - 1

// New checks a project. Capacities are from 0 to 32767.
func New(tasks []Task, capacity []int) (*Project, error) {
	p := &Project{capacity: capacity}
	for _, c := range capacity {
		if c < 0 || c > maxCapacity {
			return nil, ErrCannot
		}
	}
	n := len(tasks)
	for side := range p.before {
		p.before[side], p.after[side] = make([][]int, n), make([][]int, n)
	}
	p.waiting, p.ready = make([]int, n), make([]int, n)
	for i, task := range tasks {
		if task.Duration < 0 || len(task.Needs) > len(capacity) {
			return nil, ErrCannot
		}
		needs := make([]int, len(capacity))
		copy(needs, task.Needs)
		for r, need := range needs {
			if need < 0 || need > capacity[r] {
				return nil, ErrCannot
			}
		}
		p.duration, p.needs = append(p.duration, task.Duration), append(p.needs, needs)
		p.horizon += task.Duration
		for _, b := range task.After {
			if b < 0 || b >= n || b == i {
				return nil, ErrCannot
			}
			p.before[0][i], p.after[0][b] = append(p.before[0][i], b), append(p.after[0][b], i)
		}
	}
	p.before[1], p.after[1] = p.after[0], p.before[0]
	if !p.sort() {
		return nil, ErrCannot
	}
	p.pack()
	p.bounds()
	return p, nil
}

// sort puts the tasks in an order in which nothing comes before what it waits for.
func (p *Project) sort() bool {
	var order []int
	waiting := make([]int, len(p.duration))
	for i := range waiting {
		if waiting[i] = len(p.before[0][i]); waiting[i] == 0 {
			order = append(order, i)
		}
	}
	for at := 0; at < len(order); at++ {
		for _, next := range p.after[0][order[at]] {
			if waiting[next]--; waiting[next] == 0 {
				order = append(order, next)
			}
		}
	}
	p.ordered = order
	return len(order) == len(waiting)
}

// bounds finds longest paths and what no schedule can beat: the longest path, and
// for each resource the work over what there is.
func (p *Project) bounds() {
	n := len(p.duration)
	for side := range p.tail {
		p.tail[side] = make([]int, n)
		for at := range n {
			task := p.ordered[n-1-at]
			if side == 1 {
				task = p.ordered[at]
			}
			longest := 0
			for _, next := range p.after[side][task] {
				longest = max(longest, p.tail[side][next])
			}
			p.tail[side][task] = longest + p.duration[task]
			p.critical = max(p.critical, p.tail[side][task])
		}
	}
	p.bound = p.critical
	for r, there := range p.capacity {
		work := 0
		for i, needs := range p.needs {
			work += needs[r] * p.duration[i]
		}
		if there > 0 {
			p.bound = max(p.bound, (work+there-1)/there)
		}
	}
	p.weight = make([]int, n)
	for i, needs := range p.needs {
		for r, need := range needs {
			if need > 0 {
				p.weight[i] += 1000 * need / p.capacity[r]
			}
		}
	}
}

// Tasks is how many tasks there are.
func (p *Project) Tasks() int { return len(p.duration) }

// CriticalPath is the length of the longest path: the shortest schedule if there
// were enough of everything.
func (p *Project) CriticalPath() int { return p.critical }

// Bound is a length that no schedule can beat.
func (p *Project) Bound() int { return p.bound }

// Genes is 1: a task can be done in one way.
func (p *Project) Genes(int) int { return 1 }

// Weight is the sum over resources of the share, in thousandths, that a task uses.
func (p *Project) Weight(task int) int { return p.weight[task] }
