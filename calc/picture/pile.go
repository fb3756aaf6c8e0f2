package picture

import (
	"cmp"
	"math"

	"garlandry/calc/stable"
)

// ball is one balloon of a pile.
type ball struct {
	x, y, z, radius float64
	part, slot      int
}

// site is a place of the ground on which the next balloon may be put down from above.
type site struct {
	x, z, away float64 // away from the middle of the pile
	height     float64 // of the balloon's centre when it touches what is below
	shut       bool    // it would roll off, until more is below
}

// pile is a heap of balloons that narrows upwards. Balloons come down one by one, the largest first, each where it
// lies lowest.
type pile struct {
	balls []ball
	sites []site
	high  float64 // the height at which the pile has narrowed to nothing
	loose bool    // balloons may be put anywhere
}

// slope is how many times as high as half its width the cone is in which the centres lie. With their radii, and the
// blunt top that whole layers leave, piles are about as high as wide.
const slope = 3

const (
	sameSize    = 0.85 // sizes down to this share of a size use its sites
	mostSites   = 20   // rows of sites from the middle to the edge of a pile
	solidShare  = 6    // volume of balloons over that of the pile; the search starts too low
	mostMiddles = 60   // balloons of a size up to which several middles are tried
	mostPiles   = 60   // heights that are tried for each size
	muchLarger  = 1.5  // a balloon that is larger by this factor carries one alone
	touching    = 0.02 // gap that counts as touching, as a share of a radius
	steepOnOne  = 0.3  // nearer to the top of another a balloon would roll off
	lower       = 0.1  // what counts as lower, as a share of a radius
	leastSupply = 2    // balloons below that carry one
)

// pileOf piles up the balloons of the sizes, the largest below, about as wide as high. The lowest lie at height 0.
func pileOf(sizes []Size) []ball {
	var list []ball
	volume := 0.0
	for part, size := range sizes {
		r := radiusOf(size.DiameterMM)
		for slot := range max(size.Count, 0) {
			list = append(list, ball{radius: r, part: part, slot: slot})
			volume += float64(4.0 / 3 * math.Pi * r * r * r)
		}
	}
	stable.Sort(list, func(a, b ball) int { return cmp.Compare(b.radius, a.radius) })
	// A cone of height h and half width h / slope holds pi h^3 / (3 slope^2).
	p := pile{high: leastMM, balls: make([]ball, 0, len(list))}
	for p.high*p.high*p.high*math.Pi*solidShare < 3*slope*slope*volume {
		p.high *= 1.05
	}
	for from, to := 0, 0; from < len(list); from = to {
		for to < len(list) && list[to].radius >= list[from].radius*sameSize {
			to++
		}
		p.fill(list[from:to])
	}
	return p.balls
}

// middles are what the middle of a layer may be: a balloon, a gap between three, or a gap between two; as shares of
// the steps of its rows and columns.
var middles = [...][2]float64{{0, 0}, {1.0 / 3, 1.0 / 3}, {0.5, 0}}

// fill puts down balloons of about one size. While they find no place, it makes the pile higher and wider.
func (p *pile) fill(list []ball) {
	before, tried := len(p.balls), middles[:]
	if len(list) > mostMiddles {
		tried = tried[:1]
	}
	for try := range mostPiles {
		p.loose = try == mostPiles-1
		most := 0
		for _, middle := range tried {
			p.balls = p.balls[:before]
			p.lay(list[0].radius, middle)
			put := 0
			for put < len(list) && p.put(list[put], list[0].radius) {
				put++
			}
			if put == len(list) {
				return
			}
			most = max(most, put)
		}
		p.high *= 1.015 + float64(len(list)-most)/float64(5*len(list))
	}
}

// lay makes the sites for balloons of a radius: a hexagonal layer and both layers of hollows above it. Of sites that
// are equally low the layer's first is taken, so that hollows of only one kind are filled.
func (p *pile) lay(radius float64, middle [2]float64) {
	edge := p.high / slope
	step := max(2*radius, edge/mostSites)
	rows := min(int(edge/step)+1, mostSites+1)
	p.sites = p.sites[:0]
	for layer := range 3 {
		first, shift := len(p.sites), float64(layer)/3
		for row := -2 * rows; row <= 2*rows; row++ {
			for column := -2 * rows; column <= 2*rows; column++ {
				u, v := float64(column)+middle[0]+shift, float64(row)+middle[1]+shift
				s := site{x: step * (u + v/2), z: step * math.Sqrt(3) / 2 * v, height: radius}
				if s.away = math.Sqrt(square(s.x, s.z, 0)); s.away <= max(edge, step) {
					p.sites = append(p.sites, s)
				}
			}
		}
		stable.Sort(p.sites[first:], func(a, b site) int { return cmp.Compare(a.away, b.away) })
	}
	for i := range p.balls {
		p.raise(&p.balls[i], radius)
	}
}

// raise lifts the sites, for balloons of a radius, that are above a ball.
func (p *pile) raise(b *ball, radius float64) {
	touch := b.radius + radius
	for i := range p.sites {
		s := &p.sites[i]
		if up := float64(touch*touch) - square(s.x-b.x, s.z-b.z, 0); up > 0 {
			if height := b.y + math.Sqrt(up); height > s.height {
				s.height, s.shut = height, false
			}
		}
	}
}

// put puts a balloon on the lowest site on which it stays. It reports whether there is one.
func (p *pile) put(b ball, class float64) bool {
	for {
		best := -1
		for i := range p.sites {
			s := &p.sites[i]
			inside := p.loose || float64(s.away*slope) <= p.high-s.height
			if inside && !s.shut && (best < 0 || s.height < p.sites[best].height-float64(class*1e-6)) {
				best = i
			}
		}
		if best < 0 {
			return false
		}
		s := &p.sites[best]
		b.x, b.z = s.x, s.z
		if p.carries(&b) || p.loose {
			break
		}
		s.shut = true
	}
	p.balls = append(p.balls, b)
	p.raise(&b, class)
	return true
}

// carries lets a balloon down at its place and reports whether it stays there: on the floor, on two balloons, or on a
// much larger one.
func (p *pile) carries(b *ball) bool {
	b.y = b.radius
	for i := range p.balls {
		o := &p.balls[i]
		touch := b.radius + o.radius
		if up := float64(touch*touch) - square(b.x-o.x, b.z-o.z, 0); up > 0 {
			b.y = max(b.y, o.y+math.Sqrt(up))
		}
	}
	if b.y <= b.radius*(1+touching) {
		return true
	}
	below := 0
	for i := range p.balls {
		o := &p.balls[i]
		touch := b.radius + o.radius + float64(b.radius*touching)
		aside := square(b.x-o.x, b.z-o.z, 0)
		if aside+float64((b.y-o.y)*(b.y-o.y)) > touch*touch {
			continue
		}
		if o.radius > b.radius*muchLarger {
			return true
		}
		if aside > touch*touch*steepOnOne*steepOnOne && o.y < b.y-float64(b.radius*lower) {
			below++
		}
	}
	return below >= leastSupply
}
