package crew

import (
	"cmp"

	"garlandry/calc/stable"
)

// node is a part of a task in the order of a plan: a whole uninterrupted task, one person's spell on a shared task that
// they leave before its end, or the rest of a shared task, which all its people end together.
type node struct {
	task   int
	people []member
	share  float64 // of the task's work
	length float64 // planned minutes; 0 for a rest
	rest   bool
	waits  []int // nodes that pass on things, and nodes of predecessors
	from   int   // planned
	end    int
}

// member is a person on a node.
type member struct {
	person int
	room   int     // the node of the person on the same task whose room they take, or -1
	from   int     // planned
	speed  float64 // share of the task's work per minute, on a rest
	relief int     // person who takes over if they have left, or -1
	back   int     // planned minute of their return after they have left
	keeps  bool    // is the last to leave a rest, and stays on
}

// network is the order of a plan without its minutes: nodes by planned end, so that each comes after everything it
// waits for and after its people's earlier nodes.
type network struct {
	planned *model // of the planned job
	nodes   []node
	parts   [][]int      // the nodes of each task
	hands   [2][]float64 // of each task, by beginners and practised: see average
	genes   []uint8      // of the planned tasks: the team of each
}

// buildNetwork returns the network of the best schedule.
func (d *decoder) buildNetwork() *network {
	n := len(d.tasks)
	w := &network{planned: &d.model, parts: make([][]int, n), hands: [2][]float64{make([]float64, n), make([]float64, n)}}
	for task := range n {
		d.addNodes(w, task)
	}
	nodes := w.nodes
	stable.Sort(nodes, func(a, b node) int {
		return cmp.Or(cmp.Compare(a.end, b.end), cmp.Compare(a.from, b.from), cmp.Compare(d.rank[a.task], d.rank[b.task]))
	})
	for i := range nodes {
		task := nodes[i].task
		w.parts[task] = append(w.parts[task], i)
	}
	for i := range nodes {
		for _, before := range d.before[0][nodes[i].task] {
			w.wait(i, w.parts[before])
		}
	}
	for i := range nodes {
		d.relieve(w, i)
	}
	w.handThings(d)
	for task := range n {
		w.handRoom(w.parts[task])
	}
	return w
}

func (w *network) wait(at int, parts []int) {
	n := &w.nodes[at]
	n.waits = append(n.waits, parts...)
}

// addNodes divides a task into nodes.
func (d *decoder) addNodes(w *network, task int) {
	start, end := d.bestAt[0][task], d.bestAt[1][task]
	whole, spells := 0.0, 0
	for i := range d.best {
		if s := &d.best[i]; s.task == task {
			whole += d.done(s)
			spells++
		}
	}
	last := node{task: task, rest: true, end: end, from: end}
	if !d.tasks[task].Splittable || spells == 0 {
		last = node{task: task, share: 1, length: float64(end - start), end: end, from: start}
	}
	for i := range d.best {
		s := &d.best[i]
		if s.task != task {
			continue
		}
		m := member{person: s.person, room: -1, from: s.from, relief: -1}
		share := d.done(s) / whole
		d.average(w, s, share)
		if last.rest {
			if s.to < end {
				w.nodes = append(w.nodes,
					node{task: task, share: share, length: float64(s.to - s.from), end: s.to, from: s.from, people: []member{m}})
				continue
			}
			m.speed = d.speedOf(s) / whole
			last.share += share
			last.from = min(last.from, s.from)
		}
		last.people = append(last.people, m)
	}
	w.nodes = append(w.nodes, last)
}

// average adds a spell's part to the variance of its task: the spell's share of the work, times its share of all work
// done at the same time. The parts of a team average out; work that is handed over does not.
func (d *decoder) average(w *network, s *spell, share float64) {
	meanwhile, skilled := 0.0, 0
	for i := range d.best {
		if b := &d.best[i]; b.task == s.task {
			meanwhile += float64(d.speedOf(b) * float64(max(0, min(b.to, s.to)-max(b.from, s.from))))
		}
	}
	if d.job.People[s.person].Practised {
		skilled = 1
	}
	w.hands[skilled][s.task] += float64(share*d.done(s)) / meanwhile
}

// longBreak is the number of minutes after which others no longer wait for a person who is away. From memory, no
// source.
const longBreak = 15

// leaves returns when a person who is at a place from a minute on leaves it, for good or for a long break while it is
// open to others, and when they return; forever if they do not leave.
func (d *decoder) leaves(place Place, person, from int) (to, back int) {
	cal := d.cals[0][place][person]
	for i := 1; i < len(cal); i++ {
		to, back = cal[i-1].To, cal[i].From
		if to > from && (back >= d.last[place] || len(d.job.Windows[place]) < 2 && back-to > longBreak) {
			return to, back
		}
	}
	return forever, forever
}

// relieve sets the person who takes over from each person who leaves: among people who stay and, if possible, are as
// practised, the one who is needed elsewhere last.
func (d *decoder) relieve(w *network, at int) {
	n := &w.nodes[at]
	place, keeper, latest := d.tasks[n.task].Place, 0, 0
	for k := range n.people {
		m := &n.people[k]
		leaves, best := 0, -1
		if leaves, m.back = d.leaves(place, m.person, m.from); leaves > latest {
			keeper, latest = k, leaves
		}
		for person, cal := range d.cals[0][place] {
			if leaves == forever || cal == nil || n.has(person) || !d.may(n.task, person) {
				continue
			}
			if stays, _ := d.leaves(place, person, m.from); stays < forever {
				continue
			}
			wanted := forever
			for i := at + 1; i < len(w.nodes); i++ {
				if w.nodes[i].has(person) {
					wanted = min(wanted, w.nodes[i].from)
				}
			}
			if d.job.People[person].Practised == d.job.People[m.person].Practised {
				wanted += forever
			}
			if wanted > best {
				best, m.relief = wanted, person
			}
		}
	}
	if len(n.people) > 0 {
		n.people[keeper].keeps = true
	}
}

// has reports whether a person is on a node or would take over there.
func (n *node) has(person int) bool {
	for k := range n.people {
		if m := &n.people[k]; m.person == person || m.relief == person {
			return true
		}
	}
	return false
}

// done returns how much of a task's work was done in a spell, in thousandths of uncrowded person-minutes.
func (d *decoder) done(s *spell) float64 { return float64(d.speedOf(s) * float64(s.to-s.from)) }

func (d *decoder) speedOf(s *spell) float64 {
	if d.job.People[s.person].Practised {
		return 1000
	}
	return float64(d.speed[s.task].beginner)
}

// handRoom passes the room at a shared task from a person who leaves to one who comes later, so that no more people
// work on it at once than planned.
func (w *network) handRoom(parts []int) {
	var rooms []int // the last node in each room
	for from, more := -forever, true; more; {
		more = false
		next := forever
		for _, at := range parts {
			for k := range w.nodes[at].people {
				m := &w.nodes[at].people[k]
				if m.from > from {
					next, more = min(next, m.from), true
				}
				if m.from != from || len(parts) == 1 {
					continue
				}
				m.room = w.freeRoom(rooms, from)
				if m.room < 0 {
					rooms = append(rooms, at)
					continue
				}
				for i := range rooms {
					if rooms[i] == m.room {
						rooms[i] = at
						break
					}
				}
			}
		}
		from = next
	}
}

// freeRoom returns the node that left its room last before a minute, or -1.
func (w *network) freeRoom(rooms []int, from int) int {
	best := -1
	for _, at := range rooms {
		if end := w.nodes[at].end; end <= from && (best < 0 || end > w.nodes[best].end) {
			best = at
		}
	}
	return best
}

// unit is one unit of a thing: the nodes of the task that has it, and of the task that had it before.
type unit struct{ have, had []int }

// handThings passes every unit of every thing from task to task. A task gets the unit that came back last.
func (w *network) handThings(d *decoder) {
	order := w.byStart()
	for thing := range d.job.Things {
		holders := make([]unit, d.job.Things[thing].Count)
		for _, at := range order {
			n := &w.nodes[at]
			needs := d.needs[n.task]
			for k := range needs {
				if needs[k].thing == thing {
					w.takeUnits(holders, at, needs[k].unitsFor(max(1, len(n.people))))
				}
			}
		}
	}
}

func (w *network) byStart() []int {
	indexes := make([]int, len(w.nodes))
	for i := range indexes {
		indexes[i] = i
	}
	stable.Sort(indexes, func(i, j int) int { return cmp.Compare(w.nodes[i].from, w.nodes[j].from) })
	return indexes
}

func (w *network) takeUnits(holders []unit, at, units int) {
	n := &w.nodes[at]
	taken := make([]bool, len(holders))
	for range units {
		best, value := -1, never
		for i := range holders {
			if worth := w.worth(holders[i].have, n); !taken[i] && worth > value {
				best, value = i, worth
			}
		}
		if best < 0 {
			return
		}
		taken[best] = true
		u := &holders[best]
		if len(u.have) > 0 && w.nodes[u.have[0]].task != n.task {
			u.had, u.have = u.have, nil
		}
		w.wait(at, u.had)
		u.have = append(u.have, at)
	}
}

const never = -2 * forever

// worth rates a node's current holders of a unit: its own task is best, then holders that end later; a unit that is not
// back in time is worth nothing.
func (w *network) worth(list []int, n *node) int {
	end := -forever
	for _, holder := range list {
		if w.nodes[holder].task == n.task {
			return 2 * forever
		}
		end = max(end, w.nodes[holder].end)
	}
	if end > n.from {
		return never
	}
	return end
}
