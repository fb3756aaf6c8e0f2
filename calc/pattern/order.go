package pattern

import (
	"garlandry/calc/rng"
	"garlandry/calc/stable"
)

// arrange gives the kinds their places. Rings, and strands that do not touch, get the same kind in all strands of a
// layer as often as the counts allow.
func (l *layout) arrange() {
	counts := make([]int, len(l.kinds))
	for k, kind := range l.kinds {
		counts[k] = kind.Count
	}
	like := l.like()
	if l.Rule != Rings && (l.Joined || l.Strands == 1) {
		l.places = order(counts, like, l.Strands)
		return
	}
	layers, layerCounts := layersOf(counts, l.Strands)
	var sequence []int
	if l.Rule == Rings {
		sequence = inTurn(layerCounts)
	} else {
		layerLike := make([][]int, len(layers))
		for i, a := range layers {
			layerLike[i] = make([]int, len(layers))
			for j, b := range layers {
				for s := range a {
					layerLike[i][j] += like[a[s]][b[s]]
				}
			}
		}
		sequence = order(layerCounts, layerLike, 1)
	}
	for h, layer := range sequence {
		copy(l.places[h*l.Strands:], layers[layer])
	}
}

// inTurn orders counts[k] things of each kind k evenly. The most frequent kind goes first and takes every so many-th
// place, as a line drawn in pixels takes its steps (Bresenham). The next does the same in the places that are left.
func inTurn(counts []int) []int {
	kinds, total := make([]int, len(counts)), 0
	for k, n := range counts {
		kinds[k] = k
		total += n
	}
	stable.Sort(kinds, func(a, b int) int { return counts[b] - counts[a] })
	sequence, free := make([]int, total), make([]int, total)
	for p := range free {
		free[p] = p
	}
	for _, k := range kinds {
		left := free[:0]
		for i, p := range free {
			if i*counts[k]%len(free) < counts[k] {
				sequence[p] = k
			} else {
				left = append(left, p)
			}
		}
		free = left
	}
	return sequence
}

// layersOf puts clusters of the same kind side by side, a layer of all strands, and what is left into mixed layers.
func layersOf(clusters []int, strands int) (layers [][]int, counts []int) {
	var left []int
	for k, n := range clusters {
		layer := make([]int, strands)
		for s := range layer {
			layer[s] = k
		}
		if n >= strands {
			layers = append(layers, layer)
			counts = append(counts, n/strands)
		}
		left = append(left, layer[:n%strands]...)
	}
	for ; len(left) > 0; left = left[strands:] {
		layers = append(layers, left[:strands:strands])
		counts = append(counts, 1)
	}
	return layers, counts
}

// like is how many pairs of balloons of one colour two kinds have between them. Where neighbours touch at random, the
// number of like balloons that touch is in proportion to it.
func (l *layout) like() [][]int {
	most := 0
	for _, size := range l.Sizes {
		most = max(most, len(size.Colours))
	}
	sums := make([][]int, len(l.kinds)) // balloons of each colour, all sizes together
	for k, kind := range l.kinds {
		sums[k] = make([]int, most)
		for _, of := range kind.Of {
			for c, n := range of {
				sums[k][c] += n
			}
		}
	}
	like := make([][]int, len(sums))
	for i, a := range sums {
		like[i] = make([]int, len(sums))
		for j, b := range sums {
			for c := range a {
				like[i][j] += a[c] * b[c]
			}
		}
	}
	return like
}

// grid is a kind at each place, height by height, each the strands from left to right.
type grid struct {
	places  []int
	like    [][]int
	strands int
}

// near sums what is like around a place: the next clusters of the strand and those of touching strands count twice, the
// next but one of the strand once.
func (g *grid) near(q int) int {
	like, sum, s := g.like[g.places[q]], 0, g.strands
	if q >= s {
		sum += 2 * like[g.places[q-s]]
		if q >= 2*s {
			sum += like[g.places[q-2*s]]
		}
	}
	if q+s < len(g.places) {
		sum += 2 * like[g.places[q+s]]
		if q+2*s < len(g.places) {
			sum += like[g.places[q+2*s]]
		}
	}
	if s > 1 {
		if strand := q % s; strand > 0 {
			sum += 2 * like[g.places[q-1]]
			if strand+1 < s {
				sum += 2 * like[g.places[q+1]]
			}
		} else {
			sum += 2 * like[g.places[q+1]]
		}
	}
	return sum
}

const manyPlaces = 100

// order puts counts[k] clusters of each kind k on strands that touch, so that little of the same colour is near. It
// swaps places at random and accepts what makes it worse by less than a threshold, which sinks to nothing (threshold
// accepting: Dueck and Scheuer, Journal of Computational Physics 90, 1990).
func order(counts []int, like [][]int, strands int) []int {
	g := grid{places: inTurn(counts), like: like, strands: strands}
	n := len(g.places)
	if len(counts) < 2 {
		return g.places
	}
	low, high := like[0][0], like[0][0]
	for _, row := range like {
		for _, x := range row {
			low, high = min(low, x), max(high, x)
		}
	}
	best := g.places // of many places, the last order is as good
	if n <= manyPlaces {
		best = append([]int(nil), best...)
	}
	steps := min(4000+50*n, 200_000)
	source := rng.New(uint64(n))
	now, least := 0, 0
	for step := range steps {
		p, q := source.Below(n), source.Below(n)
		if g.places[p] == g.places[q] {
			continue
		}
		before := g.near(p) + g.near(q)
		g.places[p], g.places[q] = g.places[q], g.places[p]
		change := g.near(p) + g.near(q) - before
		if left := steps - steps/4 - step; change > 0 && change*steps > 3*(high-low)*left {
			g.places[p], g.places[q] = g.places[q], g.places[p]
			continue
		}
		if now += change; now < least && n <= manyPlaces {
			least = now
			copy(best, g.places)
		}
	}
	return best
}
