package look

import (
	"cmp"
	"math"

	"garlandry/calc/stable"
)

// touching is how near the surfaces of two balloons are that count as neighbours, as a share of their radii.
const touching = 1.08

// minglings is how often all clusters are gone through; most pictures rest sooner.
const minglings = 6

// mingle swaps the colours of balloons of one size within each cluster of a layer until like colours touch as little as
// they can. A cluster keeps its colours. It compares whole numbers only, so that it is the same everywhere.
func (l *Look) mingle(layer int) {
	beside := l.neighbours()
	for range minglings {
		changed := false
		for from := 0; from < len(l.Balloons); {
			to := from + 1
			for to < len(l.Balloons) && l.Balloons[to].Cluster == l.Balloons[from].Cluster &&
				l.Balloons[to].Layer == l.Balloons[from].Layer {
				to++
			}
			if l.Balloons[from].Layer == layer {
				changed = l.mingleCluster(from, to, beside) || changed
			}
			from = to
		}
		if !changed {
			return
		}
	}
}

// mingleCluster swaps within a cluster, whose balloons stand beside one another in the list.
func (l *Look) mingleCluster(from, to int, beside [][]int32) (changed bool) {
	for i := from; i < to; i++ {
		for k := i + 1; k < to; k++ {
			a, b := &l.Balloons[i], &l.Balloons[k]
			if a.Colour == b.Colour || a.SizeIn != b.SizeIn || a.RadiusMM != b.RadiusMM {
				continue
			}
			before := l.alike(i, beside) + l.alike(k, beside)
			a.Colour, b.Colour = b.Colour, a.Colour
			if l.alike(i, beside)+l.alike(k, beside) < before {
				changed = true
			} else {
				a.Colour, b.Colour = b.Colour, a.Colour
			}
		}
	}
	return changed
}

// alike counts the neighbours of a balloon that have its colour.
func (l *Look) alike(i int, beside [][]int32) int {
	n := 0
	for _, k := range beside[i] {
		if l.Balloons[k].Colour == l.Balloons[i].Colour {
			n++
		}
	}
	return n
}

// neighbours lists for each balloon those that touch it. It goes through them from the left, so that few pairs are
// compared.
func (l *Look) neighbours() [][]int32 {
	order, widest := make([]int32, len(l.Balloons)), 0.0
	for i := range order {
		order[i] = int32(i)
		widest = max(widest, 2*l.Balloons[i].RadiusMM)
	}
	stable.Sort(order, func(a, b int32) int { return cmp.Compare(l.Balloons[a].XMM, l.Balloons[b].XMM) })
	beside := make([][]int32, len(l.Balloons))
	for at, i := range order {
		a := &l.Balloons[i]
		for _, k := range order[at+1:] {
			b := &l.Balloons[k]
			if b.XMM-a.XMM > float64(widest*touching) {
				break
			}
			reach := float64((a.RadiusMM + b.RadiusMM) * touching)
			x, y, z := b.XMM-a.XMM, b.YMM-a.YMM, a.DepthMM-b.DepthMM
			if math.Abs(y) < reach && float64(x*x)+float64(y*y)+float64(z*z) < reach*reach {
				beside[i], beside[k] = append(beside[i], k), append(beside[k], i)
			}
		}
	}
	return beside
}
