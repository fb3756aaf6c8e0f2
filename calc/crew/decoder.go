package crew

import "garlandry/calc/crew/evolve"

// greedy is the gene of a task that takes whatever team ends it first.
const greedy = 255

// Spell is a time that one person spends on a task.
type spell struct{ task, person, from, to int }

// decoder builds schedules of a model from an order and a choice of team for each
// task: the serial scheme, for people with calendars.
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
	onIt     []int // who was on a shared task just now
	starts   []int // of the pass, in the minutes of its side
	ends     []int
	release  [places]int // earliest start of a place in the last best plan, for costs of right plans
	deadline [places]int // what right plans are pushed against
	least    int         // cost of the best plan so far
	best     []spell
	bestAt   [2][]int // its starts and ends
	found    bool
	bound    int
	plain    []uint8 // genes of tasks that can all be done in one way only
}

type loan struct{ from, to, units int }

func newDecoder(m *model) *decoder {
	n := len(m.tasks)
	d := &decoder{model: *m, waiting: ints(n), ready: ints(n), starts: ints(n), ends: ints(n), plain: make([]uint8, n)}
	d.busy, d.lent = make([][]Interval, len(m.job.People)), make([][]loan, len(m.job.Things))
	d.bestAt = [2][]int{ints(n), ints(n)}
	d.bound = m.bound()
	return d
}

// Tasks, Genes, Weight and Bound describe the problem to package evolve.
func (d *decoder) Tasks() int { return len(d.tasks) }

func (d *decoder) Genes(task int) int {
	t := &d.tasks[task]
	return min(greedy-1, (t.Most-t.Least+1)*d.tastes(t.Place))
}

// tastes is 2 where practised and beginners may be preferred, 1 where all are plain.
func (d *decoder) tastes(place Place) int {
	if d.mixed[place] {
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

// Forward schedules every task as early as it can. The cost is the sum over places
// of the minute at which the last task there ends.
func (d *decoder) Forward(keys []int, plan *evolve.Plan) {
	d.pass(0, keys, plan.Genes)
	copy(plan.Start, d.starts)
	copy(plan.Finish, d.ends)
	first, last, there := d.span()
	plan.Cost = 0
	for place := range places {
		if there[place] {
			plan.Cost += last[place]
		}
	}
	if !d.found || plan.Cost < d.least {
		d.found, d.least = true, plan.Cost
		d.release, d.deadline = first, last
		d.best = append(d.best[:0], d.spells...)
		copy(d.bestAt[0], d.starts)
		copy(d.bestAt[1], d.ends)
	}
}

// Backward schedules every task as late as it can before the ends of the best plan
// so far. Each minute by which the first task of a place begins later than in that
// plan is a minute less cost.
func (d *decoder) Backward(keys []int, plan *evolve.Plan) {
	d.pass(1, keys, plan.Genes)
	for task := range d.starts {
		d.starts[task], d.ends[task] = -d.ends[task], -d.starts[task]
	}
	copy(plan.Start, d.starts)
	copy(plan.Finish, d.ends)
	first, _, there := d.span()
	plan.Cost = 0
	for place := range places {
		if there[place] {
			plan.Cost += d.deadline[place] - (first[place] - d.release[place])
		}
	}
}

// span is when the first task of each place begins and the last ends.
func (d *decoder) span() (first, last [places]int, there [places]bool) {
	for task := range d.tasks {
		place := d.tasks[task].Place
		if !there[place] {
			there[place], first[place], last[place] = true, d.starts[task], d.ends[task]
		}
		first[place], last[place] = min(first[place], d.starts[task]), max(last[place], d.ends[task])
	}
	return first, last, there
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
			d.ready[task] = -d.deadline[d.tasks[task].Place]
		}
		d.waiting[task] = len(d.before[side][task]) + 1
		d.waitLess(task, -forever)
	}
	for len(d.open) > 0 {
		task := d.lowest(keys)
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

// waitLess takes one of the things that a task waits for away from it.
func (d *decoder) waitLess(task, ready int) {
	d.ready[task] = max(d.ready[task], ready)
	d.waiting[task]--
	if d.waiting[task] == 0 {
		d.open = push(d.open, task)
	}
}

// lowest takes the open task with the lowest key, of equal ones the lowest number.
func (d *decoder) lowest(keys []int) int {
	best := 0
	for i, task := range d.open {
		if key, least := keys[task], keys[d.open[best]]; key < least || key == least && task < d.open[best] {
			best = i
		}
	}
	task := d.open[best]
	d.open[best] = d.open[len(d.open)-1]
	d.open = d.open[:len(d.open)-1]
	return task
}

// put schedules one task and writes down its gene if it was greedy.
func (d *decoder) put(side, task int, gene *uint8) {
	if d.work[task] == 0 {
		d.starts[task], d.ends[task], *gene = d.ready[task], d.ready[task], 0
		return
	}
	if *gene == greedy {
		*gene = d.quickest(side, task)
	}
	d.try(side, task, *gene, true)
}

// try finds the end of a task in the team of a gene, and writes it all down if it is kept.
func (d *decoder) try(side, task int, gene uint8, keep bool) (end int) {
	hands, slowFirst := d.team(task, gene)
	if d.tasks[task].Splittable {
		return d.share(side, task, hands, slowFirst, keep)
	}
	start, end := d.whole(side, task, hands, slowFirst)
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

// team is what a gene says: how many hands, and whether beginners go first.
func (d *decoder) team(task int, gene uint8) (hands int, slowFirst bool) {
	t := &d.tasks[task]
	tastes := d.tastes(t.Place)
	return min(t.Most, t.Least+int(gene)/tastes), tastes == 2 && gene%2 == 1
}

// quickest is the gene that ends a task first, with the fewest hands among equals.
func (d *decoder) quickest(side, task int) (best uint8) {
	soonest := forever
	for gene := range d.Genes(task) {
		if end := d.try(side, task, uint8(gene), false); end < soonest {
			best, soonest = uint8(gene), end
		}
	}
	return best
}

// bookAll writes down the spells from one on.
func (d *decoder) bookAll(first int) {
	for i := first; i < len(d.spells); i++ {
		s := &d.spells[i]
		d.book(s.person, s.from, s.to)
	}
}

// book writes down that a person is busy; times that touch become one.
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
		list = append(list[:at], list[at+1:]...)
	case before:
		list[at-1].To = to
	case after:
		list[at].From = from
	default:
		list = append(list, Interval{})
		copy(list[at+1:], list[at:])
		list[at] = Interval{from, to}
	}
	d.busy[person] = list
}

func (d *decoder) lend(task, hands, from, to int) {
	for i := range d.needs[task] {
		need := &d.needs[task][i]
		lent := &d.lent[need.thing]
		*lent = append(*lent, loan{from, to, need.unitsFor(hands)})
	}
}
