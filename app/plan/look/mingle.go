package look

import "math"

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

// neighbours lists for each balloon those that touch it.
func (l *Look) neighbours() [][]int32 {
	beside := make([][]int32, len(l.Balloons))
	for i := range l.Balloons {
		a := &l.Balloons[i]
		for k := i + 1; k < len(l.Balloons); k++ {
			b := &l.Balloons[k]
			reach := float64((a.RadiusMM + b.RadiusMM) * touching)
			x, y, z := math.Abs(a.XMM-b.XMM), math.Abs(a.YMM-b.YMM), a.DepthMM-b.DepthMM
			if x < reach && y < reach && float64(x*x)+float64(y*y)+float64(z*z) < reach*reach {
				beside[i], beside[k] = append(beside[i], int32(k)), append(beside[k], int32(i))
			}
		}
	}
	return beside
}
