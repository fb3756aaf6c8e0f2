package softsphere

import (
	"fmt"
	"math"
)

// FlatRings is how far apart rings of equal balloons stand when each lies flat
// round its knot, is turned by half a step against the next, and is pushed
// lightly until they touch. It shows the engine against figures from plain
// geometry (0.8409 d for four); no real cluster stays flat. Errors wrap ErrSpheres.
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

// HeapFraction is the share of space that equal balloons fill when they are
// thrown at random and pressed lightly from all sides until they jam: random
// close packing, 0.64 (Berryman, Physical Review A 27, 1053, 1983). The heap
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
	r := &random{seed}
	for i := range s.place {
		s.place[i] = side * r.unit()
	}
	s.squeezed = true
	for _, pressure := range []float64{1e-2, 2e-3, 4e-4} {
		s.push = pressure
		s.relax(pressure/50, mostSteps)
	}
	return volume / (s.side[0] * s.side[1] * s.side[2]), nil
}
