package crew

import "sort"

// node is a part of a task in the order of a plan: the whole of a task that is not
// interrupted, one person's spell on a shared one that they leave before its end,
// or the rest of a shared one, which all its people end together.
type node struct {
	task   int
	people []member
	share  float64 // of the task's work
	length float64 // planned minutes; of a rest 0
	rest   bool
	waits  []int // nodes that hand over things, and of the tasks before
	from   int   // planned
	end    int
}

// member is a person on a node.
type member struct {
	person int
	room   int     // the node of somebody on the same task whose room they take, -1 if none
	from   int     // planned
	speed  float64 // share of the task's work each minute, on a rest
}

// network is the order of a plan without its minutes: nodes by planned end, so that
// each comes after all that it waits for and after the earlier ones of its people.
type network struct {
	nodes []node
	parts [][]int   // the nodes of each task
	hands []float64 // on each task on average, at least 1
}

// weave finds the network of the best schedule.
func (d *decoder) weave() *network {
	w := &network{parts: make([][]int, len(d.tasks))}
	byTask := make([][]spell, len(d.tasks))
	for _, s := range d.best {
		byTask[s.task] = append(byTask[s.task], s)
	}
	for task := range d.tasks {
		w.nodes = append(w.nodes, d.nodesOf(task, byTask[task])...)
	}
	sort.SliceStable(w.nodes, func(i, j int) bool {
		a, b := &w.nodes[i], &w.nodes[j]
		if a.end != b.end {
			return a.end < b.end
		}
		if a.from != b.from {
			return a.from < b.from
		}
		return d.rank[a.task] < d.rank[b.task]
	})
	for i := range w.nodes {
		w.parts[w.nodes[i].task] = append(w.parts[w.nodes[i].task], i)
	}
	for i := range w.nodes {
		for _, before := range d.before[0][w.nodes[i].task] {
			w.nodes[i].waits = append(w.nodes[i].waits, w.parts[before]...)
		}
	}
	for task, spells := range byTask {
		minutes := 0
		for _, s := range spells {
			minutes += s.to - s.from
		}
		w.hands = append(w.hands, max(1, float64(minutes)/float64(max(1, d.bestAt[1][task]-d.bestAt[0][task]))))
	}
	w.handThings(d)
	for _, parts := range w.parts {
		w.handRoom(parts)
	}
	return w
}

// nodesOf cuts a task into nodes.
func (d *decoder) nodesOf(task int, spells []spell) []node {
	start, end := d.bestAt[0][task], d.bestAt[1][task]
	if !d.tasks[task].Splittable || len(spells) == 0 {
		n := node{task: task, share: 1, length: float64(end - start), end: end, from: start}
		for _, s := range spells {
			n.people = append(n.people, member{person: s.person, room: -1, from: s.from})
		}
		return []node{n}
	}
	speed := func(s spell) float64 {
		if d.job.People[s.person].Practised {
			return 1000
		}
		return float64(d.speed[task].beginner)
	}
	whole := 0.0
	for _, s := range spells {
		whole += float64(speed(s) * float64(s.to-s.from))
	}
	rest := node{task: task, rest: true, end: end, from: end}
	var nodes []node
	for _, s := range spells {
		share := float64(speed(s)*float64(s.to-s.from)) / whole
		if s.to < end {
			nodes = append(nodes, node{task: task, share: share, length: float64(s.to - s.from), end: s.to, from: s.from,
				people: []member{{person: s.person, room: -1, from: s.from}}})
			continue
		}
		rest.share += share
		rest.from = min(rest.from, s.from)
		rest.people = append(rest.people, member{s.person, -1, s.from, speed(s) / whole})
	}
	return append(nodes, rest)
}

// handRoom gives the room round a shared task from one who leaves to one who comes
// later, so that no more work on it at once than planned.
func (w *network) handRoom(parts []int) {
	var rooms []int // nodes that were in each last
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

// freeRoom is the node that left its room last before a minute, -1 if none did.
func (w *network) freeRoom(rooms []int, from int) int {
	best := -1
	for _, at := range rooms {
		if end := w.nodes[at].end; end <= from && (best < 0 || end > w.nodes[best].end) {
			best = at
		}
	}
	return best
}

// unit is one of a thing: the nodes of the task that has it, and of the one it came from.
type unit struct{ have, had []int }

// handThings gives every unit of every thing from task to task: to one that needs
// it comes the unit that came back last.
func (w *network) handThings(d *decoder) {
	for thing := range d.job.Things {
		holders := make([]unit, d.job.Things[thing].Count)
		for _, at := range w.byStart() {
			n := &w.nodes[at]
			for _, need := range d.needs[n.task] {
				if need.thing == thing {
					w.takeUnits(holders, at, need.unitsFor(max(1, len(n.people))))
				}
			}
		}
	}
}

func (w *network) byStart() []int {
	order := make([]int, len(w.nodes))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return w.nodes[order[i]].from < w.nodes[order[j]].from })
	return order
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
		n.waits = append(n.waits, u.had...)
		u.have = append(u.have, at)
	}
}

const never = -2 * forever

// worth is how gladly a node takes a unit from those who have it: best from its own
// task, then the later they end; never if it is not back by then.
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
