package pattern

import (
	"slices"

	"garlandry/calc/stable"
)

// Steps of the search for few kinds: per attempt, and for all attempts together.
const (
	attemptSteps = 30_000
	searchSteps  = 100_000
	joinSteps    = 4_000
)

// search looks for whole compositions of kinds that give the exact split, for given counts of the kinds.
type search struct {
	*layout
	even                []int // by column: share of one cluster, rounded down
	low, high           []int // by column: bounds for one cluster
	lowAfter, highAfter []int // sums of the bounds of the size's later columns
	free                bool  // the last kind may hold anything
	times               []int // clusters of each kind
	of                  []int // by kind: a row of width counts
	left                []int // by kind: balloons of the size that are still without a colour
	all                 []int // by column: balloons in all clusters
	after               []int // by kind: clusters of later kinds
	steps, total        int   // steps left of this attempt, and of all
}

// scatter replaces the kinds of the wrap-around rule by fewer ones if it finds them. First it looks at clusters within
// one balloon of the even mixture, then it lets the last kind take what is left over, then it lets all kinds lie one
// balloon further from the mixture.
func (l *layout) scatter() {
	most := min(l.MostKinds, len(l.kinds)-1)
	n := len(l.kinds)
	s := &search{layout: l, of: make([]int, l.width*n), left: make([]int, n), after: make([]int, n), total: searchSteps}
	for _, size := range l.Sizes {
		for _, balloons := range size.Colours {
			s.all = append(s.all, balloons)
			s.even = append(s.even, balloons/l.Clusters)
		}
	}
	for _, way := range []struct {
		slack int
		free  bool
	}{{0, false}, {0, true}, {1, true}} {
		if len(l.kinds) <= l.MostKinds && way.free {
			return
		}
		s.bound(way.slack, way.free)
		for kinds := 1; kinds <= most && s.total > 0; kinds++ {
			s.times, s.steps = make([]int, kinds), min(attemptSteps, s.total)
			s.total -= s.steps
			found := s.part(kinds-1, l.Clusters, 1)
			s.total += max(s.steps, 0)
			if found {
				l.kinds = s.found()
				return
			}
		}
	}
	s.total = max(s.total, searchSteps/2)
	for s.join() {
		l.kinds = s.found()
	}
}

// bound sets how many balloons of each column a cluster may hold: its share rounded down and up, give or take slack.
func (s *search) bound(slack int, free bool) {
	s.free = free
	s.low, s.high = make([]int, s.width), make([]int, s.width)
	s.lowAfter, s.highAfter = make([]int, s.width), make([]int, s.width)
	for i, size := range s.Sizes {
		low, high := 0, 0
		for c := len(size.Colours) - 1; c >= 0; c-- {
			at := s.firsts[i] + c
			s.low[at] = max(0, s.even[at]-slack)
			s.high[at] = min(size.Each, (s.all[at]+s.Clusters-1)/s.Clusters+slack)
			s.lowAfter[at], s.highAfter[at] = low, high
			low += s.low[at]
			high += s.high[at]
		}
	}
}

// part parts the clusters left among the kinds 0 to k, the last kind the smallest, and tries each way. It reports
// whether one gives the split.
func (s *search) part(k, clusters, least int) bool {
	s.after[k] = s.Clusters - clusters
	if k == 0 {
		s.times[0] = clusters
		return s.size(0)
	}
	for n := least; n*(k+1) <= clusters && s.steps > 0; n++ {
		s.times[k] = n
		if s.part(k-1, clusters-n, n) {
			return true
		}
	}
	return false
}

// size reports whether the kinds can give the split of sizes i and later, which do not depend on each other.
func (s *search) size(i int) bool {
	for ; i < len(s.Sizes); i++ {
		size := s.Sizes[i]
		if len(size.Colours) == 0 {
			continue
		}
		for k := range s.times {
			s.left[k] = size.Each
		}
		if !s.fill(s.firsts[i], s.firsts[i]+len(size.Colours), 0, size.Colours[0]) {
			return false
		}
	}
	return true
}

// nearFirst lists how far from the rounded-down share a cluster may be, the nearest first.
var nearFirst = [...]int{0, 1, -1, 2}

// fill shares a column's balloons out over the kinds k and later and goes on with the columns before end.
func (s *search) fill(column, end, k, balloons int) bool {
	if s.steps--; s.steps < 0 {
		return false
	}
	n := s.times[k]
	if k == len(s.times)-1 {
		of := balloons / n
		if of*n != balloons || of > s.left[k] || !s.free && (of < s.low[column] || of > s.high[column]) {
			return false
		}
		s.of[k*s.width+column] = of
		s.left[k] -= of
		if column+1 == end || s.fill(column+1, end, 0, s.all[column+1]) {
			return true
		}
		s.left[k] += of
		return false
	}
	low := max(s.low[column], s.left[k]-s.highAfter[column])
	high := min(s.high[column], s.left[k]-s.lowAfter[column])
	least, most := s.low[column]*s.after[k], s.high[column]*s.after[k]
	if s.free {
		last := len(s.times) - 1
		least -= s.low[column] * s.times[last]
		most += (s.left[last] - s.high[column]) * s.times[last]
	}
	for _, away := range nearFirst {
		of := s.even[column] + away
		if left := balloons - of*n; of < low || of > high || left < least || left > most {
			continue
		}
		s.of[k*s.width+column] = of
		s.left[k] -= of
		if s.fill(column, end, k+1, balloons-of*n) {
			return true
		}
		s.left[k] += of
	}
	return false
}

// found makes kinds of what fill wrote. Equal kinds become one.
func (s *search) found() []Kind {
	var kinds []Kind
	for k, n := range s.times {
		row := s.of[k*s.width : (k+1)*s.width]
		same := 0
		for same < len(kinds) && !slices.Equal(row, s.of[same*s.width:(same+1)*s.width]) {
			same++
		}
		if same < len(kinds) {
			kinds[same].Count += n
			continue
		}
		copy(s.of[len(kinds)*s.width:], row)
		kind := Kind{Of: s.bySize(row), Count: n}
		for column, of := range row {
			odd := of < s.even[column] || of > s.even[column]+1
			kind.Odd = kind.Odd || odd && s.free && k == len(s.times)-1
		}
		kinds = append(kinds, kind)
	}
	return kinds
}

// join looks for one kind fewer than there are, where two of them have become one.
func (s *search) join() bool {
	kinds := len(s.kinds) - 1
	if kinds < s.MostKinds {
		return false
	}
	for j := range s.kinds {
		for i := range j {
			s.times = s.times[:0]
			for k, kind := range s.kinds {
				switch k {
				case i:
					s.times = append(s.times, kind.Count+s.kinds[j].Count)
				case j:
				default:
					s.times = append(s.times, kind.Count)
				}
			}
			stable.Sort(s.times, func(a, b int) int { return b - a })
			after := 0
			for k := kinds - 1; k >= 0; k-- {
				s.after[k] = after
				after += s.times[k]
			}
			s.steps = min(joinSteps, s.total)
			s.total -= s.steps
			found := s.size(0)
			s.total += max(s.steps, 0)
			if found {
				return true
			}
		}
	}
	return false
}
