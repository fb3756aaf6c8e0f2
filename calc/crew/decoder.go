package crew

import "garlandry/calc/crew/genetic"

// greedy is the gene of a task that takes the team that ends it first.
const greedy = 255

// spell is a time that one person spends on a task.
type spell struct{ task, person, from, to int }

// decoder builds schedules of a model from an order and a team for each task: the serial scheme, for people with
// calendars.
type decoder struct {
	model
	busy     [][]Interval // of each person, rising
	lent     [][]loan     // of each thing
	waiting  []int
	ready    []int
	open     []int
	spells   []spell
	chosen   []int
	trial    []int // how long each person is free
	onIt     []int // who worked on a shared task just before
	starts   []int // of the current pass, in the minutes of its side
	ends     []int
	release  [places]int // earliest start of a place in the last best plan, for the cost of backward plans
	deadline lasts       // the ends that backward plans start from
	least    int         // cost of the best plan so far
	best     []spell
	bestAt   [2][]int // its starts and ends
	found    bool
	steps    []genetic.Plan // plans that were the best at some time
	bound    int
	plain    []uint8 // genes if every task can be done in one way only
}

type loan struct{ from, to, units int }

func newDecoder(m *model) *decoder {
	n := len(m.tasks)
	d := &decoder{model: *m, waiting: make([]int, n), ready: make([]int, n), starts: make([]int, n),
		ends: make([]int, n), plain: make([]uint8, n)}
	d.busy, d.lent = make([][]Interval, len(m.job.People)), make([][]loan, len(m.job.Things))
	d.bestAt = [2][]int{make([]int, n), make([]int, n)}
	d.bound = m.bound()
	return d
}

// Tasks, Genes, Weight and Bound describe the problem to package genetic.
func (d *decoder) Tasks() int { return len(d.tasks) }

func (d *decoder) Genes(task int) int {
	t := &d.tasks[task]
	return min(greedy-1, (t.Most-t.Least+1)*d.tastes(t.Place))
}

// tastes returns 2 if a place has both practised people and beginners, so that teams can prefer either, else 1.
func (m *model) tastes(place Place) int {
	if m.mixed[place] {
		return 2
	}
	return 1
}

func (d *decoder) Weight(task int) int {
	weight := 1000 * d.tasks[task].Least
	for i := range d.needs[task] {
		need := &d.needs[task][i]
		weight += 1000 * need.units / d.job.Things[need.thing].Count
	}
	return weight
}

func (d *decoder) Bound() int { return d.bound }

// Forward schedules every task as early as possible.
func (d *decoder) Forward(keys []int, plan *genetic.Plan) {
	d.pass(0, keys, plan.Genes)
	copy(plan.Start, d.starts)
	copy(plan.Finish, d.ends)
	first, last := d.span()
	plan.Cost = d.cost(&last)
	if !d.found || plan.Cost < d.least {
		d.found, d.least = true, plan.Cost
		d.release, d.deadline = first, last
		d.best = append(d.best[:0], d.spells...)
		copy(d.bestAt[0], d.starts)
		copy(d.bestAt[1], d.ends)
		kept := genetic.NewPlan(len(d.tasks), true)
		plan.Copy(&kept)
		copy(kept.Genes, plan.Genes)
		d.steps = append(d.steps, kept)
	}
}

// weights are the cost of each minute by which the last task of a place ends later. Only work on site delays the doors.
// From memory, no source.
var weights = [places]int{Home: 4, Load: 8, Site: 64, TakeDown: 8}

// firstWeight is the cost of each minute by which the last must, and the last must or should, on site end later. It
// only decides how many people work on them, since they are scheduled first in any case. It does not depend on the
// doors, so a search finds the same plans whenever they open. From memory, no source.
const firstWeight = 4

// lasts holds when the last task of each place ends: of all tasks, of musts and shoulds, and of musts; never if there
// is none.
type lasts [places][Could + 1]int

// reach records that a task ends at a minute.
func (m *model) reach(last *lasts, task, end int) {
	place := m.tasks[task].Place
	for level := range Could + 1 - m.level[task] {
		at := &last[place][level]
		*at = max(*at, end)
	}
}

// cost returns the cost of a schedule, which the search minimises.
func (m *model) cost(last *lasts) (sum int) {
	for place := range places {
		if last[place][0] > never {
			sum += weights[place] * last[place][0]
		}
	}
	for level := 1; level <= int(Could); level++ {
		if last[Site][level] > never {
			sum += firstWeight * level * last[Site][level]
		}
	}
	return sum
}

// nothing returns lasts without any task.
func nothing() (last lasts) {
	for place := range last {
		last[place] = [Could + 1]int{never, never, never}
	}
	return last
}

// Backward schedules every task as late as it can before the ends of the best plan so far. Each minute by which the
// first task of a place begins later than in that plan reduces the cost by a minute.
func (d *decoder) Backward(keys []int, plan *genetic.Plan) {
	d.pass(1, keys, plan.Genes)
	for task := range d.starts {
		d.starts[task], d.ends[task] = -d.ends[task], -d.starts[task]
	}
	copy(plan.Start, d.starts)
	copy(plan.Finish, d.ends)
	first, _ := d.span()
	plan.Cost = d.least
	for place := range places {
		plan.Cost -= weights[place] * (first[place] - d.release[place])
	}
}

// span returns when the first task of each place begins, 0 if there is none, and when the last ends.
func (d *decoder) span() (first [places]int, last lasts) {
	last = nothing()
	for task := range d.tasks {
		place := d.tasks[task].Place
		if last[place][0] == never {
			first[place] = d.starts[task]
		}
		first[place] = min(first[place], d.starts[task])
		d.reach(&last, task, d.ends[task])
	}
	return first, last
}

func (d *decoder) pass(side int, keys []int, genes []uint8) {
	if genes == nil {
		genes = d.plain
	}
	for i := range d.busy {
		d.busy[i] = d.busy[i][:0]
	}
	for i := range d.lent {
		d.lent[i] = d.lent[i][:0]
	}
	d.spells, d.open = d.spells[:0], d.open[:0]
	for task := range d.waiting {
		d.ready[task] = d.earliest(task)
		if side == 1 {
			d.ready[task] = -d.deadline[d.tasks[task].Place][0]
		}
		d.waiting[task] = len(d.before[side][task]) + 1
		d.waitLess(task, -forever)
	}
	for len(d.open) > 0 {
		task := d.lowest(side, keys)
		d.put(side, task, &genes[task])
		end := d.ends[task]
		for _, next := range d.before[1-side][task] {
			lag := 0
			if d.job.Drive > 0 {
				lag = d.lag(task, next) + d.lag(next, task)
			}
			d.waitLess(next, end+lag)
		}
	}
}

// waitLess removes one of the tasks that a task waits for.
func (d *decoder) waitLess(task, ready int) {
	d.ready[task] = max(d.ready[task], ready)
	d.waiting[task]--
	if d.waiting[task] == 0 {
		d.open = append(d.open, task)
	}
}

// lowest removes the next open task and returns it: forwards a must before a should before a could, then the one with
// the lowest key, then the one with the lowest number. So musts are scheduled as if there was nothing else, and the
// others get what they leave free. Backwards only the keys count, since those plans are only parents of others.
func (d *decoder) lowest(side int, keys []int) int {
	best := 0
	for i, task := range d.open {
		if i > 0 && d.sooner(side, keys, task, d.open[best]) {
			best = i
		}
	}
	task := d.open[best]
	d.open[best] = d.open[len(d.open)-1]
	d.open = d.open[:len(d.open)-1]
	return task
}

// sooner reports whether an open task goes before another.
func (d *decoder) sooner(side int, keys []int, task, other int) bool {
	if a, b := d.level[task], d.level[other]; a != b && side == 0 {
		return a < b
	}
	return keys[task] < keys[other] || keys[task] == keys[other] && task < other
}

// put schedules one task and records its gene if it was greedy.
func (d *decoder) put(side, task int, gene *uint8) {
	if d.work[task] == 0 {
		d.starts[task], d.ends[task], *gene = d.ready[task], d.ready[task], 0
		return
	}
	if *gene == greedy {
		*gene = d.quickest(side, task)
	}
	d.try(side, task, *gene, true, forever)
}

// try finds the end of a task with the team of a gene, and records the spells if the team is used. It may give up and
// return the limit when the task cannot end before it.
func (d *decoder) try(side, task int, gene uint8, keep bool, limit int) (end int) {
	hands, slowFirst := d.team(task, gene)
	if d.tasks[task].Splittable {
		return d.share(side, task, hands, slowFirst, keep, limit)
	}
	start, end := d.whole(side, task, hands, slowFirst, limit)
	if keep {
		d.starts[task], d.ends[task] = start, end
		first := len(d.spells)
		for _, person := range d.chosen {
			d.spells = append(d.spells, spell{task, person, start, end})
		}
		d.bookAll(first)
		d.lend(task, hands, start, end)
	}
	return end
}

// team decodes a gene: how many hands, and whether beginners go first.
func (m *model) team(task int, gene uint8) (hands int, slowFirst bool) {
	t := &m.tasks[task]
	tastes := m.tastes(t.Place)
	return min(t.Most, t.Least+int(gene)/tastes), tastes == 2 && gene%2 == 1
}

// quickest returns the gene that ends a task first. Ties go to the fewest hands.
func (d *decoder) quickest(side, task int) (best uint8) {
	soonest := forever
	for gene := range d.Genes(task) {
		if end := d.try(side, task, uint8(gene), false, soonest); end < soonest {
			best, soonest = uint8(gene), end
		}
	}
	return best
}

// bookAll records the spells from an index on.
func (d *decoder) bookAll(first int) {
	for i := first; i < len(d.spells); i++ {
		s := &d.spells[i]
		d.book(s.person, s.from, s.to)
	}
}

// book records that a person is busy, and joins times that touch.
func (d *decoder) book(person, from, to int) {
	list := d.busy[person]
	at := len(list)
	for at > 0 && list[at-1].From > from {
		at--
	}
	before := at > 0 && list[at-1].To == from
	after := at < len(list) && list[at].From == to
	switch {
	case before && after:
		list[at-1].To = list[at].To
		d.busy[person] = append(list[:at], list[at+1:]...)
	case before:
		list[at-1].To = to
	case after:
		list[at].From = from
	default:
		d.busy[person] = append(d.busy[person], Interval{})
		list = d.busy[person]
		copy(list[at+1:], list[at:])
		list[at] = Interval{from, to}
	}
}

func (d *decoder) lend(task, hands, from, to int) {
	for i := range d.needs[task] {
		need := &d.needs[task][i]
		lent := &d.lent[need.thing]
		*lent = append(*lent, loan{from, to, need.unitsFor(hands)})
	}
}
