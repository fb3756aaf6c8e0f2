package softsphere

import (
	"errors"
	"fmt"
	"math"
)

// ErrSpheres is wrapped by errors about diameters, counts or pushes that cannot be relaxed.
var ErrSpheres = errors.New("no balloons to relax")

// Limits of what can be relaxed.
const (
	// MaxPerCluster is the most balloons in one cluster.
	MaxPerCluster = 64
	// MaxBalloons is the most balloons in one string.
	MaxBalloons = 20000
	// MaxRatio is the largest ratio between two diameters.
	MaxRatio = 20
)

const (
	freeStarts    = 16
	sketchStarts  = 4
	looseTwist    = 0.01 // neck stiffness at which balloons just touch
	roughly       = 1e-3 // remaining force, in mean diameters
	nearly        = 3e-4
	closely       = 1e-6
	mostSteps     = 4000
	mostFreeSteps = 3000
)

// Free relaxes one cluster on its own, twisted at the necks: all necks are equally long and the balloons just touch.
// It returns the tightest of several starts. For n equal balloons this is the Tammes problem: the
// centre distance is d / (2 sin(theta/2)), with theta the widest least angle between n directions. Errors wrap
// ErrSpheres.
func Free(diametersMM []float64) (Rest, error) {
	return tightest(diametersMM, freeStarts, closely, nil)
}

// FreeSketch is a faster Free for drawings, with fewer starts and a coarser balance. Its ball is within a few percent
// of Free's and takes at most a quarter of the time.
func FreeSketch(diametersMM []float64) (Rest, error) {
	return tightest(diametersMM, sketchStarts, nearly, nil)
}

// tightest returns the best of some starts, each relaxed to a tolerance.
func tightest(diametersMM []float64, starts uint64, tolerance float64, pause func()) (Rest, error) {
	if err := checkDiameters(diametersMM, 1); err != nil {
		return Rest{}, err
	}
	s := newSystem(open, diametersMM, 1)
	s.twisted, s.pause = true, pause
	var best Rest
	least := math.Inf(1)
	for seed := range starts {
		s.neck = NeckStiffness
		s.scatter(seed)
		first, _ := s.relax(roughly, mostFreeSteps)
		s.neck = looseTwist
		second, settled := s.relax(tolerance, mostFreeSteps)
		s.findForces()
		if s.energy < least*(1-1e-6) {
			least = s.energy
			best = s.rest(first+second, settled)
		}
	}
	return best, nil
}

func checkDiameters(diameters []float64, clusters int) error {
	balloons := len(diameters)
	if balloons < 1 || balloons > MaxPerCluster || clusters < 1 || clusters > MaxBalloons ||
		clusters*balloons > MaxBalloons {
		return fmt.Errorf("%d clusters of %d balloons; 1 to %d balloons, up to %d a cluster, can be relaxed: %w", clusters,
			balloons, MaxBalloons, MaxPerCluster, ErrSpheres)
	}
	least, most := diameters[0], diameters[0]
	for _, d := range diameters {
		least, most = min(least, d), max(most, d)
	}
	if !(least >= 1e-3 && most <= 1e6 && most <= MaxRatio*least) {
		return fmt.Errorf(
			"balloons of %g to %g mm; diameters above 0, at most %d times as large, can be relaxed together: %w", least, most,
			MaxRatio, ErrSpheres,
		)
	}
	return nil
}
