package softsphere

import "garlandry/calc/rng"

// space says how a system repeats and what a push squeezes.
type space int

const (
	open     space = iota // no repeats: a free cluster
	string1D              // repeats along z: a string pushed along its length
	bulk3D                // repeats along x, y and z: a heap pressed from all sides
)

// system holds the balloons and everything needed to relax them. Vectors are flat: x y z of one balloon after
// another. All memory is allocated before the loop.
type system struct {
	space    space
	radius   []float64
	place    []float64
	velocity []float64
	force    []float64
	cluster  []int32
	clusters int
	neck     float64 // stiffness of the neck springs, in contact stiffnesses
	twisted  bool    // necks of equal length, for a free cluster
	flat     bool    // balloons keep to the plane of their knot
	scale    float64 // mean diameter
	side     [3]float64

	squeezed bool    // the sides follow the push
	push     float64 // axial force for a string, pressure for a heap
	virial   float64 // sum of force times distance, along what the push squeezes
	energy   float64

	sideVelocity, sideForce float64 // of the sides as one more coordinate

	moves  int // of single balloons, over all steps
	pause  func()
	paused int // moves at the last pause

	grid grid
}

// newSystem returns a system of equal clusters, each with these diameters.
func newSystem(in space, diameters []float64, clusters int) *system {
	n := len(diameters) * clusters
	s := &system{
		space:    in,
		radius:   make([]float64, n),
		place:    make([]float64, 3*n),
		velocity: make([]float64, 3*n),
		force:    make([]float64, 3*n),
		cluster:  make([]int32, n),
		clusters: clusters,
		neck:     NeckStiffness,
	}
	s.scale = meanOf(diameters)
	for i := range n {
		s.radius[i] = diameters[i%len(diameters)] / 2
		s.cluster[i] = int32(i / len(diameters))
	}
	s.grid.take(n, s.radius, s.scale)
	return s
}

func (s *system) periodic(axis int) bool {
	return s.space == bulk3D || s.space == string1D && axis == 2
}

// knot returns the position along the string where the cluster's necks are tied.
func (s *system) knot(cluster int32) float64 {
	if s.space != string1D {
		return 0
	}
	return float64((float64(cluster) + 0.5) * s.side[2] / float64(s.clusters))
}

// scatter puts each cluster's balloons in random directions around its knot, clear of the knot.
func (s *system) scatter(seed uint64) {
	r := rng.New(seed)
	for i := range s.radius {
		x, y, z := direction(&r)
		away := float64(s.radius[i] * (1 + unit(&r)))
		s.place[3*i] = float64(x * away)
		s.place[3*i+1] = float64(y * away)
		s.place[3*i+2] = s.knot(s.cluster[i]) + float64(z*away)
	}
	s.grid.valid = false
}
