package pattern

import "garlandry/calc/stable"

// layout is a base while it is being laid. Place q is at height q / Strands of strand q % Strands, so that places in
// order go layer by layer.
type layout struct {
	Base
	width  int     // colours of all sizes together
	firsts []int   // by size: where its colours begin in a row of counts
	counts []int   // by place: a row of width counts
	kinds  []Kind  // what was found
	places []int   // kind at each place
	slots  [][]int // by size: colour of each balloon, by place; only Spiral sets them
}

// gather makes a kind of every different row of counts, in the order of their first place.
func (l *layout) gather() {
	known := map[string]int{}
	key := make([]byte, l.width)
	for q := range l.places {
		row := l.counts[q*l.width : (q+1)*l.width]
		for i, n := range row {
			key[i] = byte(n)
		}
		k, is := known[string(key)]
		if !is {
			k = len(l.kinds)
			known[string(key)] = k
			l.kinds = append(l.kinds, Kind{Of: l.bySize(row)})
		}
		l.kinds[k].Count++
		l.places[q] = k
	}
}

// bySize copies a row of counts and parts it by size.
func (l *layout) bySize(row []int) [][]int {
	row = append([]int(nil), row...)
	of := make([][]int, len(l.Sizes))
	for i, size := range l.Sizes {
		from := l.firsts[i]
		of[i] = row[from : from+len(size.Colours) : from+len(size.Colours)]
	}
	return of
}

// markMixed marks the kinds in which a size has more than one colour.
func (l *layout) markMixed() {
	for k := range l.kinds {
		for i, of := range l.kinds[k].Of {
			most := 0
			for _, n := range of {
				most = max(most, n)
			}
			if most < l.Sizes[i].Each {
				l.kinds[k].Odd = true
			}
		}
	}
}

// laid sorts the kinds and puts the places into building order.
func (l *layout) laid() Laid {
	order := make([]int, len(l.kinds))
	for k := range order {
		order[k] = k
	}
	stable.Sort(order, func(a, b int) int {
		if l.kinds[a].Odd != l.kinds[b].Odd {
			if l.kinds[b].Odd {
				return -1
			}
			return 1
		}
		return l.kinds[b].Count - l.kinds[a].Count
	})
	done := Laid{Sequence: make([]int, l.Clusters), Slots: make([][]int, len(l.Sizes))}
	rank := make([]int, len(order))
	for r, k := range order {
		rank[k] = r
		done.Kinds = append(done.Kinds, l.kinds[k])
	}
	height := l.Clusters / l.Strands
	for i := range done.Sequence {
		done.Sequence[i] = rank[l.places[i%max(height, 1)*l.Strands+i/max(height, 1)]]
	}
	for i, size := range l.Sizes {
		slots := make([]int, size.Each*l.Clusters)
		if l.slots == nil {
			turn(slots, size.Each, height, i, &done)
		} else {
			for j := range slots {
				c := j / size.Each
				slots[j] = l.slots[i][(c%height*l.Strands+c/height)*size.Each+j%size.Each]
			}
		}
		done.Slots[i] = slots
	}
	return done
}

// mostTurns bounds the turns that are tried for a cluster.
const mostTurns = 16

// turn gives the slots of one size their colours. Colours alternate round a cluster as their shares allow, and each
// cluster is turned so that the fewest slots have the colour of the same slot below.
func turn(slots []int, each, height, size int, done *Laid) {
	rounds := make([][]int, len(done.Kinds))
	for k, kind := range done.Kinds {
		rounds[k] = round(kind.Of[size], each)
	}
	for i, k := range done.Sequence {
		now, best, least := slots[i*each:(i+1)*each], 0, each+1
		for t := 0; t < min(each, mostTurns) && i%height > 0; t++ {
			like := 0
			for j := range now {
				if rounds[k][(j+t)%each] == slots[(i-1)*each+j] {
					like++
				}
			}
			if like < least {
				best, least = t, like
			}
		}
		for j := range now {
			now[j] = rounds[k][(j+best)%each]
		}
	}
}

// round deals the colours of one cluster: next comes the colour that is furthest behind its share.
func round(of []int, each int) []int {
	dealt := make([]int, each)
	given := make([]int, len(of))
	for j := range dealt {
		next, most := 0, -each*each
		for c, n := range of {
			if behind := n*(j+1) - given[c]*each; given[c] < n && behind > most {
				next, most = c, behind
			}
		}
		given[next]++
		dealt[j] = next
	}
	return dealt
}
