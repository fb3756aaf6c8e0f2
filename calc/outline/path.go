package outline

import (
	"math"
	"sort"
)

// track is one smooth part of a line: a point and a speed for 0 <= t <= 1.
type track interface {
	at(t float64) Point
	speed(t float64) float64
}

// piece is a track with a table of lengths: at t = marks[i] the distance from the start is travelled[i].
type piece struct {
	track
	marks, travelled []float64
}

// path is a line of consecutive pieces.
type path []piece

const (
	deepestSplit     = 14
	lengthTolerance  = 1e-11
	placingTolerance = 1e-10
)

func newPiece(t track) piece {
	p := piece{track: t, marks: []float64{0}, travelled: []float64{0}}
	whole := quadrature(t, 0, 1)
	p.split(0, 1, whole, whole*lengthTolerance, deepestSplit)
	return p
}

// split adds marks until halving a panel no longer changes its length.
func (p *piece) split(from, to, panelMM, toleranceMM float64, depth int) {
	middle := (from + to) / 2
	left, right := quadrature(p.track, from, middle), quadrature(p.track, middle, to)
	if depth == 0 || math.Abs(left+right-panelMM) <= toleranceMM {
		way := p.travelled[len(p.travelled)-1]
		p.marks = append(p.marks, middle, to)
		p.travelled = append(p.travelled, way+left, way+left+right)
		return
	}
	p.split(from, middle, left, toleranceMM, depth-1)
	p.split(middle, to, right, toleranceMM, depth-1)
}

func (p piece) lengthMM() float64 { return p.travelled[len(p.travelled)-1] }

// place returns the point at the distance wayMM along the piece.
func (p piece) place(wayMM float64) Point {
	if wayMM <= 0 {
		return p.at(0)
	}
	if wayMM >= p.lengthMM() {
		return p.at(1)
	}
	next := sort.SearchFloat64s(p.travelled, wayMM)
	start, rest := p.marks[next-1], wayMM-p.travelled[next-1]
	return p.at(p.solve(start, p.marks[next], rest, p.travelled[next]-p.travelled[next-1]))
}

// solve returns the t between start and end at the distance rest from start, where whole is the length of the panel. It
// uses Newton's method from a proportional guess, kept in a shrinking bracket.
func (p piece) solve(start, end, rest, whole float64) float64 {
	low, high := start, end
	t := start + float64((end-start)*(rest/whole))
	for range 60 {
		miss := quadrature(p.track, start, t) - rest
		if math.Abs(miss) <= placingTolerance*p.lengthMM() {
			break
		}
		if miss < 0 {
			low = t
		} else {
			high = t
		}
		t -= miss / p.speed(t)
		if !(t > low && t < high) {
			t = (low + high) / 2
		}
	}
	return t
}

func (line path) lengthMM() float64 {
	total := 0.0
	for _, p := range line {
		total += p.lengthMM()
	}
	return total
}

// places returns count points, equally far apart along the first part of the path, including its start and end.
func (line path) places(count int, part float64) []Point {
	points := make([]Point, 0, count)
	step := line.lengthMM() * part / float64(count-1)
	current, before := 0, 0.0
	for i := range count - 1 {
		way := float64(step * float64(i))
		for current < len(line)-1 && way > before+line[current].lengthMM() {
			before += line[current].lengthMM()
			current++
		}
		points = append(points, line[current].place(way-before))
	}
	last := line[len(line)-1]
	if part < 1 {
		return append(points, last.place(float64(line.lengthMM()*part)-before))
	}
	return append(points, last.at(1))
}

// gaussNodes are the nodes of the 8-point Gauss-Legendre rule on -1..1 (Abramowitz & Stegun Table 25.4, n = 8), the
// positive half. gaussWeights are their weights.
var gaussNodes = [4]float64{
	0.183434642495649805, 0.525532409916328986, 0.796666477413626740, 0.960289856497536232,
}

var gaussWeights = [4]float64{
	0.362683783378361983, 0.313706645877887287, 0.222381034453374471, 0.101228536290376259,
}

func quadrature(t track, from, to float64) float64 {
	middle, half := (from+to)/2, (to-from)/2
	sum := 0.0
	for i, node := range gaussNodes {
		offset := float64(half * node)
		sum += float64(gaussWeights[i] * (t.speed(middle-offset) + t.speed(middle+offset)))
	}
	return half * sum
}
