package softsphere

import (
	"slices"
)

// Figures are the measures of a string of clusters.
type Figures struct {
	PitchMM, GirthMM float64
	// Coverage is the hidden share, 0 to 1, of the band with the girth's width.
	Coverage float64
}

const (
	typicalStarts   = 5
	typicalClusters = 20
)

// Typical measures a string at a push: the median of five strings of twenty clusters, each pushed together from its
// own start. Such strings differ by one or two percent. Quads near a push of 0.2 differ by up to a quarter: their
// clusters fold flat there, each string at a slightly different push. Errors wrap ErrSpheres.
func Typical(diametersMM []float64, push float64) (Figures, error) {
	if err := checkString(diametersMM, typicalClusters, push); err != nil {
		return Figures{}, err
	}
	return typical(diametersMM, push, nil, Rest.Coverage), nil
}

// typical is Typical with pauses. It computes the coverage only if coverage is not nil.
func typical(diameters []float64, push float64, pause func(), coverage func(Rest) float64) Figures {
	measured := [3][]float64{}
	for start := range uint64(typicalStarts) {
		s, _ := apartOnString(diameters, typicalClusters, start+1, pause)
		s.pushTo(push)
		rest := s.rest(0, true)
		measured[0] = append(measured[0], rest.PitchMM())
		measured[1] = append(measured[1], rest.GirthMM())
		if coverage != nil {
			measured[2] = append(measured[2], coverage(rest))
		}
	}
	figures := Figures{PitchMM: median(measured[0]), GirthMM: median(measured[1])}
	if coverage != nil {
		figures.Coverage = median(measured[2])
	}
	return figures
}

func median(of []float64) float64 {
	slices.Sort(of)
	return of[len(of)/2]
}

func meanOf(diameters []float64) float64 {
	mean := 0.0
	for _, d := range diameters {
		mean += d / float64(len(diameters))
	}
	return mean
}
