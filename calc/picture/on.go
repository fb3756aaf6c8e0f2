package picture

import (
	"math"

	"garlandry/calc/outline"
)

// On returns accents on the balloons of a base. They are spread evenly along the base's line, from and to being
// shares of it, and over its width, and each is put into the deepest gap nearby. It touches what is below it there,
// and overlaps another accent only where there is no room. Clusters count the accents from 0. Without a line, the
// longer side of the base counts as one: for walls, columns and heaps.
func On(base []Balloon, line []outline.Point, from, to float64, accents Clusters) []Balloon {
	return Beside(base, line, from, to, Front, accents)
}

// Side is where on the width of a base clusters sit.
type Side int

// The sides.
const (
	Front Side = iota // before the base, its edges left free
	Round             // over the whole width
	Outer             // to the left of the line: above, or outside of a bow
	Inner             // to the right of it
)

// across turns a share of what a side has of the width into a share of the width, from the right of the line.
func (s Side) across(share float64) float64 {
	switch s {
	case Round:
		return share
	case Outer:
		return 1 - float64(sideShare*share)
	case Inner:
		return float64(sideShare * share)
	}
	return inset + float64((1-2*inset)*share)
}

// Beside is [On] for clusters that sit on one side of the base.
func Beside(base []Balloon, line []outline.Point, from, to float64, side Side, accents Clusters) []Balloon {
	if len(accents.Order) == 0 {
		return nil
	}
	if len(line) < 2 {
		line = longSide(base)
	}
	s := surface{base: base, radius: meanRadius(base)}
	s.measure(line)
	free := make([][]member, len(accents.Recipes))
	cos, sin, share := 1.0, 0.0, 0.5
	var balloons []Balloon
	for i, recipe := range accents.Order {
		if free[recipe] == nil {
			free[recipe] = accents.Rests.freeOf(accents.Recipes[recipe])
		}
		cos, sin = turned(cos, sin, goldenCos, goldenSin)
		one := facing(free[recipe], cos, sin)
		part := from + float64((to-from)*((float64(i)+0.5)/float64(len(accents.Order))))
		if share += goldenShare; share >= 1 {
			share--
		}
		for _, m := range s.settle(one, s.wanted(line, part, side.across(share))) {
			m.Cluster = i
			balloons = append(balloons, m)
		}
	}
	return balloons
}

const (
	goldenShare = 0.61803398874989484820
	inset       = 0.15 // of the width at either side that is left free
	sideShare   = 0.3  // of the width that is one side
)

// surface is the front of a base and the accents that are on it.
type surface struct {
	base   []Balloon
	radius float64 // mean of the base's balloons
	// ways and asides are where the balloons of the base are along its line and to the left of it.
	ways, asides []float64
	length       float64 // of the line
	near         []Balloon
	spots        []spot
}

// spot is the disc that an accent hides.
type spot struct{ x, y, radius float64 }

func meanRadius(balloons []Balloon) float64 {
	sum := 0.0
	for i := range balloons {
		sum += balloons[i].RadiusMM
	}
	return sum / float64(max(len(balloons), 1))
}

// longSide returns the line through the middle of balloons along their longer side.
func longSide(balloons []Balloon) []outline.Point {
	e := ExtentOf(balloons)
	x, y := (e.LeftMM+e.RightMM)/2, (e.BottomMM+e.TopMM)/2
	if e.RightMM-e.LeftMM >= e.TopMM-e.BottomMM {
		return straight(String, e.LeftMM, y, e.RightMM, y).Points
	}
	return straight(String, x, e.BottomMM, x, e.TopMM).Points
}

// facing turns a cluster before the viewer.
func facing(members []member, cos, sin float64) []Balloon {
	one := make([]Balloon, len(members))
	for i, m := range members {
		one[i] = Balloon{
			XMM:     float64(m.along*cos) - float64(m.across*sin),
			YMM:     float64(m.along*sin) + float64(m.across*cos),
			DepthMM: m.depth, RadiusMM: m.radius, Part: m.part, Slot: m.slot,
		}
	}
	return one
}

// rulerSegments is the number of straight pieces into which a line is divided to measure along it.
const rulerSegments = 96

// measure finds where along the line each balloon of the base is, and how far to the left of it.
func (s *surface) measure(line []outline.Point) {
	s.ways, s.asides = make([]float64, len(s.base)), make([]float64, len(s.base))
	nearest := make([]float64, len(s.base))
	segments := min(len(line)-1, rulerSegments)
	for k := range segments {
		from, to := line[k*(len(line)-1)/segments], line[(k+1)*(len(line)-1)/segments]
		way, long := between(from, to), math.Sqrt(square(to.XMM-from.XMM, to.YMM-from.YMM, 0))
		for i := range s.base {
			x, y := s.base[i].XMM-from.XMM, s.base[i].YMM-from.YMM
			along, across := float64(x*way.XMM)+float64(y*way.YMM), float64(y*way.XMM)-float64(x*way.YMM)
			inside := min(max(along, 0), long)
			if away := square(along-inside, across, 0); k == 0 || away < nearest[i] {
				nearest[i], s.ways[i], s.asides[i] = away, s.length+inside, across
			}
		}
		s.length += long
	}
}

// wanted returns the point of the base at a share of its line and a share of its width there.
func (s *surface) wanted(line []outline.Point, part, share float64) outline.Point {
	if part = min(part, 1); !(part > 0) {
		part = 0
	}
	at := part * float64(len(line)-1)
	i := min(int(at), len(line)-2)
	middle, way := mixed(line[i], line[i+1], at-float64(i)), between(line[i], line[i+1])
	low, high := math.Inf(1), math.Inf(-1)
	for k := range s.base {
		r, aside := s.base[k].RadiusMM, s.asides[k]
		if math.Abs(s.ways[k]-float64(part*s.length)) < r {
			low, high = min(low, aside-r), max(high, aside+r)
		}
	}
	if low > high {
		return middle
	}
	across := low + float64((high-low)*share)
	return outline.Point{XMM: middle.XMM - float64(way.YMM*across), YMM: middle.YMM + float64(way.XMM*across)}
}

// settle puts an accent into the deepest gap near a point of the base.
func (s *surface) settle(one []Balloon, wanted outline.Point) []Balloon {
	size := 0.0
	for i := range one {
		b := &one[i]
		size = max(size, math.Sqrt(square(b.XMM, b.YMM, 0))+b.RadiusMM)
	}
	s.gather(wanted, size+float64(2*s.radius))
	best, depth, least := wanted, 0.0, math.Inf(1)
	try := func(x, y float64) {
		at, covered := s.depthAt(one, x, y)
		if !covered {
			return
		}
		cost := at/s.radius + float64(farCost*square(x-wanted.XMM, y-wanted.YMM, 0)/(s.radius*s.radius)) +
			float64(crowdCost*s.crowd(x, y, size))
		if cost < least {
			best, depth, least = outline.Point{XMM: x, YMM: y}, at, cost
		}
	}
	s.around(wanted, try)
	if math.IsInf(least, 1) && len(s.base) > 0 {
		nearest := s.nearest(wanted)
		s.gather(nearest, size+float64(2*s.radius))
		s.around(nearest, try)
	}
	s.spots = append(s.spots, spot{best.XMM, best.YMM, size})
	for i := range one {
		one[i].XMM += best.XMM
		one[i].YMM += best.YMM
		one[i].DepthMM += depth
	}
	return one
}

// What a place costs, in mean radii of depth: the square of the distance from the wanted place, and hiding another
// accent.
const (
	farCost   = 0.4
	crowdCost = 20
)

// around tries a point and rings of points around it.
func (s *surface) around(p outline.Point, try func(x, y float64)) {
	try(p.XMM, p.YMM)
	x, y := 1.0, 0.0
	for i := range mostTried {
		x, y = turned(x, y, goldenCos, goldenSin)
		away := s.radius * reachTried * math.Sqrt((float64(i)+1)/mostTried)
		try(p.XMM+float64(x*away), p.YMM+float64(y*away))
	}
}

const (
	mostTried  = 32
	reachTried = 1.6 // in mean radii
)

// gather finds the balloons of the base near a point.
func (s *surface) gather(p outline.Point, reach float64) {
	reach += float64(s.radius * reachTried)
	s.near = s.near[:0]
	for i := range s.base {
		b := &s.base[i]
		if within := reach + b.RadiusMM; math.Abs(b.XMM-p.XMM) < within && math.Abs(b.YMM-p.YMM) < within {
			s.near = append(s.near, *b)
		}
	}
}

// depthAt returns the depth of an accent's knot where the accent touches the base, and whether the base is behind it.
func (s *surface) depthAt(one []Balloon, x, y float64) (depth float64, covered bool) {
	depth = math.Inf(-1)
	for i := range s.near {
		b := &s.near[i]
		dx, dy := b.XMM-x, b.YMM-y
		covered = covered || square(dx, dy, 0) < b.RadiusMM*b.RadiusMM
		for k := range one {
			a := &one[k]
			touch := a.RadiusMM + b.RadiusMM
			if deep := float64(touch*touch) - square(dx-a.XMM, dy-a.YMM, 0); deep > 0 {
				depth = max(depth, b.DepthMM+math.Sqrt(deep)-a.DepthMM)
			}
		}
	}
	return depth, covered && !math.IsInf(depth, -1)
}

// crowd returns how much an accent would hide of others, or others of it: 0 for none.
func (s *surface) crowd(x, y, size float64) float64 {
	crowd := 0.0
	for _, o := range s.spots {
		room := (size + o.radius) * roomBetween
		if apart := square(x-o.x, y-o.y, 0); apart < room*room {
			crowd += 1 - math.Sqrt(apart)/room
		}
	}
	return crowd
}

// roomBetween is how near accents may be, as a share of where their balls touch: their outlines are not round.
const roomBetween = 0.9

// nearest returns the middle of the balloon of the base that is nearest to a point.
func (s *surface) nearest(p outline.Point) outline.Point {
	best, least := p, math.Inf(1)
	for i := range s.base {
		b := &s.base[i]
		if away := math.Sqrt(square(b.XMM-p.XMM, b.YMM-p.YMM, 0)) - b.RadiusMM; away < least {
			best, least = outline.Point{XMM: b.XMM, YMM: b.YMM}, away
		}
	}
	return best
}
