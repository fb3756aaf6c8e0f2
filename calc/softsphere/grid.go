package softsphere

import "math"

// grid holds the list of pairs that are near enough to touch soon. It is rebuilt from cells when balloons have moved
// half the skin.
type grid struct {
	pairs  []pair
	old    []float64 // positions when the list was made
	side   [3]float64
	head   []int32
	next   []int32
	cell   []int32
	reach  float64 // largest diameter plus skin
	skin   float64
	valid  bool
	cells  [3]int
	origin [3]float64
	width  [3]float64
}

type pair struct{ i, j int32 }

// skinShare is the skin as a share of the mean diameter. A wider skin means longer lists that are rebuilt less often.
const skinShare = 0.35

func (g *grid) take(n int, radius []float64, scale float64) {
	g.skin = skinShare * scale
	for _, r := range radius {
		g.reach = max(g.reach, 2*r)
	}
	g.reach += g.skin
	g.old = make([]float64, 3*n)
	g.next = make([]int32, n)
	g.cell = make([]int32, n)
	g.head = make([]int32, 0, 4*n+64)
	g.pairs = make([]pair, 0, 24*n)
}

// refresh rebuilds the list if a pair that is not in it could touch by now.
func (s *system) refresh() {
	g := &s.grid
	if g.valid && !s.strayed() {
		return
	}
	copy(g.old, s.place)
	g.side = s.side
	s.sortIntoCells()
	s.listPairs()
	g.valid = true
}

// strayed reports whether two balloons that are not in the list could touch by now. Scaling the sides moves two
// balloons closer only by a share of their distance, so only a balloon's own movement counts against the skin.
func (s *system) strayed() bool {
	g := &s.grid
	var carried [3]float64
	least := 1.0
	for axis := range 3 {
		carried[axis] = 1
		if s.periodic(axis) {
			carried[axis] = s.side[axis] / g.side[axis]
			least = min(least, carried[axis])
		}
	}
	slack := g.skin - float64((1-least)*g.reach)
	if slack <= 0 {
		return true
	}
	limit := slack * slack / 4
	for i := 0; i < len(s.place); i += 3 {
		dx := s.place[i] - float64(g.old[i]*carried[0])
		dy := s.place[i+1] - float64(g.old[i+1]*carried[1])
		dz := s.place[i+2] - float64(g.old[i+2]*carried[2])
		if float64(dx*dx)+float64(dy*dy)+float64(dz*dz) > limit {
			return true
		}
	}
	return false
}

// sortIntoCells adds each balloon to the chain of its cell.
func (s *system) sortIntoCells() {
	g := &s.grid
	for axis := range 3 {
		s.layCells(axis)
	}
	for g.cells[0]*g.cells[1]*g.cells[2] > cap(g.head) {
		for axis := range 3 {
			g.cells[axis] = (g.cells[axis] + 1) / 2
			g.width[axis] *= 2
		}
	}
	for axis := range 3 {
		if s.periodic(axis) {
			if g.cells[axis] < 3 {
				g.cells[axis] = 1
			}
			g.width[axis] = s.side[axis] / float64(g.cells[axis])
		}
	}
	g.head = g.head[:g.cells[0]*g.cells[1]*g.cells[2]]
	for c := range g.head {
		g.head[c] = -1
	}
	for i := range s.radius {
		c := int32((s.cellAlong(0, i)*g.cells[1]+s.cellAlong(1, i))*g.cells[2] + s.cellAlong(2, i))
		g.cell[i], g.next[i] = c, g.head[c]
		g.head[c] = int32(i)
	}
}

// layCells chooses the cells along one axis, none narrower than the reach.
func (s *system) layCells(axis int) {
	g := &s.grid
	low, high := 0.0, s.side[axis]
	if !s.periodic(axis) {
		low, high = math.Inf(1), math.Inf(-1)
		for i := axis; i < len(s.place); i += 3 {
			low, high = min(low, s.place[i]), max(high, s.place[i])
		}
	}
	g.origin[axis] = low
	g.cells[axis] = max(1, int(min((high-low)/g.reach, 1<<20)))
	g.width[axis] = max((high-low)/float64(g.cells[axis]), g.reach)
}

// cellAlong returns the cell of a balloon along one axis, wrapped or clamped.
func (s *system) cellAlong(axis, balloon int) int {
	g := &s.grid
	at := s.place[3*balloon+axis] - g.origin[axis]
	if s.periodic(axis) {
		at -= float64(math.Floor(at/s.side[axis]) * s.side[axis])
	}
	return min(max(int(at/g.width[axis]), 0), g.cells[axis]-1)
}

// listPairs visits each balloon's cell and the cells around it.
func (s *system) listPairs() {
	g := &s.grid
	g.pairs = g.pairs[:0]
	for i := range s.radius {
		c := int(g.cell[i])
		across, xs := s.nearCells(0, c/(g.cells[1]*g.cells[2]))
		up, ys := s.nearCells(1, c/g.cells[2]%g.cells[1])
		along, zs := s.nearCells(2, c%g.cells[2])
		for _, x := range across[:xs] {
			for _, y := range up[:ys] {
				for _, z := range along[:zs] {
					s.pairWith(i, (x*g.cells[1]+y)*g.cells[2]+z)
				}
			}
		}
	}
}

// nearCells returns the cells of one axis within one step of a cell, each once, and their number.
func (s *system) nearCells(axis, at int) (near [3]int, count int) {
	cells := s.grid.cells[axis]
	if cells == 1 {
		return near, 1
	}
	for to := at - 1; to <= at+1; to++ {
		cell := to
		if to < 0 || to >= cells {
			if !s.periodic(axis) {
				continue
			}
			cell = (to + cells) % cells
		}
		near[count] = cell
		count++
	}
	return near, count
}

// pairWith lists balloon i with the lower-numbered balloons of a cell.
func (s *system) pairWith(i, cell int) {
	g := &s.grid
	for j := g.head[cell]; j >= 0; j = g.next[j] {
		if int(j) >= i {
			continue
		}
		dx, dy, dz := s.apart(i, int(j))
		touch := s.radius[i] + s.radius[j] + g.skin
		if float64(dx*dx)+float64(dy*dy)+float64(dz*dz) < touch*touch {
			g.pairs = append(g.pairs, pair{int32(i), j})
		}
	}
}

// apart returns the vector from balloon j to the nearest image of balloon i.
func (s *system) apart(i, j int) (dx, dy, dz float64) {
	dx = s.place[3*i] - s.place[3*j]
	dy = s.place[3*i+1] - s.place[3*j+1]
	dz = s.place[3*i+2] - s.place[3*j+2]
	if s.space == bulk3D {
		dx, dy = wrap(dx, s.side[0]), wrap(dy, s.side[1])
	}
	if s.space != open {
		dz = wrap(dz, s.side[2])
	}
	return dx, dy, dz
}

// wrap returns the distance to the nearest repeat. Positions are never a whole side apart.
func wrap(distance, side float64) float64 {
	if distance > side/2 {
		return distance - side
	}
	if distance < -side/2 {
		return distance + side
	}
	return distance
}
