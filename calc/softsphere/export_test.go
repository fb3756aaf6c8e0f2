package softsphere

import (
	"fmt"
	"math"

	"garlandry/calc/rng"
)

// Pushes returns the pushes of a Curve.
func Pushes() [Points]float64 { return pushes }

// FlatRings returns the distance of rings of equal balloons when each lies flat around its knot, is turned by half a
// step against the next, and is pushed lightly until they touch. It compares the engine with plain geometry (0.8409 d
// for four); real clusters do not stay flat. Errors wrap ErrSpheres.
func FlatRings(balloons int, diameterMM float64) (float64, error) {
	diameters := make([]float64, max(balloons, 0))
	for i := range diameters {
		diameters[i] = diameterMM
	}
	if err := checkDiameters(diameters, fewestClusters); err != nil {
		return 0, err
	}
	s := newSystem(string1D, diameters, fewestClusters)
	s.flat = true
	s.side[2] = float64(fewestClusters) * 1.5 * diameterMM
	away := diameterMM * 0.5 / math.Sin(math.Pi/float64(max(balloons, 2)))
	for i := range s.radius {
		turn := (float64(i%balloons) + float64(0.5*float64(int(s.cluster[i])%2))) * 2 * math.Pi / float64(balloons)
		s.place[3*i], s.place[3*i+1] = away*math.Cos(turn), away*math.Sin(turn)
		s.place[3*i+2] = s.knot(s.cluster[i])
	}
	s.neck = 0.003
	s.squeezed, s.push = true, 1e-5*s.scale
	if _, settled := s.relax(closely/10, 4*mostSteps); !settled {
		return 0, fmt.Errorf("rings of %d did not come to rest: %w", balloons, ErrSpheres)
	}
	return s.side[2] / fewestClusters, nil
}

// HeapFraction returns the share of space that equal balloons fill when they are placed at random and pressed lightly
// from all sides until they jam: random close packing, 0.64 (Berryman, Physical Review A 27, 1053, 1983). The heap
// repeats on all sides, so it has no wall. Errors wrap ErrSpheres.
func HeapFraction(balloons int, seed uint64) (float64, error) {
	if balloons < 30 || balloons > MaxBalloons {
		return 0, fmt.Errorf("a heap of %d balloons; 30 to %d can be relaxed: %w", balloons, MaxBalloons, ErrSpheres)
	}
	s := newSystem(bulk3D, []float64{1}, balloons)
	s.neck = 0
	volume := float64(balloons) * math.Pi / 6
	side := math.Cbrt(volume / 0.4)
	s.side = [3]float64{side, side, side}
	r := rng.New(seed)
	for i := range s.place {
		s.place[i] = side * unit(&r)
	}
	s.squeezed = true
	for _, pressure := range []float64{1e-2, 2e-3, 4e-4} {
		s.push = pressure
		s.relax(pressure/50, mostSteps)
	}
	return volume / (s.side[0] * s.side[1] * s.side[2]), nil
}

// pieceClusters is the largest number of clusters that are pushed together from apart. A push moves along a string as
// slowly as its balloons give way, so the number of steps grows with the length. Longer strings are made from pieces
// that are already at rest, so that only the joint between the shorter last piece and the first has to settle.
const pieceClusters = 40

// Pushed returns a string of equal clusters, made one by one and then pushed together along the string until it resists
// with the push. The push is a force in overlaps at one contact, as a share of the mean diameter: for 250 mm balloons,
// 0.2 is the force of one contact that overlaps by 50 mm. At least ten clusters are relaxed; if fewer are requested,
// only those are returned, with their LengthMM. The seed chooses the start. Errors wrap ErrSpheres.
func Pushed(diametersMM []float64, clusters int, push float64, seed uint64) (Rest, error) {
	if err := checkString(diametersMM, clusters, push); err != nil {
		return Rest{}, err
	}
	s, steps := apartOnString(diametersMM, min(max(clusters, fewestClusters), pieceClusters), seed, nil)
	more, settled := s.pushTo(push)
	steps += more
	if clusters > pieceClusters {
		s = s.laidEndToEnd(diametersMM, clusters)
		more, settled = s.pushTo(push)
		steps += more
	}
	return s.rest(steps, settled).first(clusters), nil
}

// laidEndToEnd returns a longer string of copies of this one, the last cut short.
func (s *system) laidEndToEnd(diameters []float64, clusters int) *system {
	long := newSystem(string1D, diameters, clusters)
	pitch := s.side[2] / float64(s.clusters)
	long.side[2] = float64(clusters) * pitch
	for i := 0; i < len(long.place); i += len(s.place) {
		copy(long.place[i:], s.place)
		before := float64(i/len(s.place)) * s.side[2]
		for k := i + 2; k < min(i+len(s.place), len(long.place)); k += 3 {
			long.place[k] += before
		}
	}
	long.moves = s.moves
	return long
}
