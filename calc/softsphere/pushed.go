package softsphere

import "fmt"

// fewestClusters is the fewest clusters that are relaxed together, so that a string is not affected by its own repeat.
const fewestClusters = 10

// Limits of a push, as a share of the mean diameter.
const (
	LeastPush = 0.01
	MostPush  = 1.0
)

func checkString(diametersMM []float64, clusters int, push float64) error {
	if err := checkDiameters(diametersMM, clusters); err != nil {
		return err
	}
	if !(push >= LeastPush && push <= MostPush) {
		return fmt.Errorf("a push of %g; %g to %g of the mean diameter can be relaxed: %w", push, LeastPush, MostPush,
			ErrSpheres)
	}
	return nil
}

// Held shortens its string in strides of this strain, with a few steps of relaxation between them. Longer strides
// would fold clusters into each other.
const (
	heldStrain = 0.04
	heldSteps  = 4
)

// Held relaxes a string of equal clusters at a fixed pitch. AxialForce is the force that this needs. Errors wrap
// ErrSpheres.
func Held(diametersMM []float64, clusters int, pitchMM float64, seed uint64) (Rest, error) {
	if err := checkDiameters(diametersMM, clusters); err != nil {
		return Rest{}, err
	}
	s, steps := apartOnString(diametersMM, max(clusters, fewestClusters), seed, nil)
	most := s.side[2] / float64(s.clusters)
	if !(pitchMM >= 0.1*s.scale && pitchMM <= most) {
		return Rest{}, fmt.Errorf("a pitch of %g mm; %.0f to %.0f mm can be relaxed: %w", pitchMM, 0.1*s.scale, most,
			ErrSpheres)
	}
	length := pitchMM * float64(s.clusters)
	for s.side[2] > length {
		s.stretch(max(1-heldStrain, length/s.side[2]))
		more, _ := s.relax(roughly, heldSteps)
		steps += more
	}
	s.side[2] = length
	more, settled := s.relax(nearly, mostSteps)
	s.findForces()
	return s.rest(steps+more, settled).first(clusters), nil
}

// apartOnString returns a string of clusters that are too far apart to touch.
func apartOnString(diameters []float64, clusters int, seed uint64, pause func()) (*system, int) {
	s := newSystem(string1D, diameters, clusters)
	s.pause = pause
	s.side[2] = float64(clusters) * s.farApart()
	s.scatter(seed)
	steps, _ := s.relax(roughly, mostFreeSteps)
	return s, steps
}

// farApart returns a pitch at which clusters do not touch. A scattered balloon is at most one and a half largest
// diameters from its knot. Gathered balloons fill at least a quarter of the ball around them.
func (s *system) farApart() float64 {
	largest := 0.0
	for _, r := range s.radius {
		largest = max(largest, 2*r)
	}
	perCluster := float64(len(s.radius) / s.clusters)
	across := 3.0
	for across*across*across < 4*perCluster {
		across += 0.25
	}
	return largest * across
}

// pushTo applies a push and relaxes, including the length, until everything rests.
func (s *system) pushTo(push float64) (int, bool) {
	s.squeezed, s.push = true, float64(push*s.scale)
	return s.relax(nearly, mostSteps)
}

// first returns the first clusters of a string.
func (r Rest) first(clusters int) Rest {
	if clusters >= r.Clusters {
		return r
	}
	r.Balloons = r.Balloons[:clusters*len(r.Balloons)/r.Clusters]
	r.LengthMM = r.LengthMM * float64(clusters) / float64(r.Clusters)
	r.Clusters = clusters
	return r
}
