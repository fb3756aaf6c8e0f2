package softsphere

import "garlandry/calc/stable"

// Figures are the measures of a string of clusters.
type Figures struct {
	PitchMM, WidthMM, WidestMM float64
	// Coverage is the hidden share, 0 to 1, of the band with the string's width.
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
	return typical(diametersMM, push, nil, true), nil
}

// typical is Typical with pauses. If it is not to look, it measures only the pitch.
func typical(diameters []float64, push float64, pause func(), look bool) (f Figures) {
	var pitches, widths, widest, coverages []float64
	for start := range uint64(typicalStarts) {
		s, _ := apartOnString(diameters, typicalClusters, start+1, pause)
		s.pushTo(push)
		rest := s.rest(0, true)
		pitches = append(pitches, rest.PitchMM())
		if look {
			widths = append(widths, rest.WidthMM())
			widest = append(widest, rest.WidestMM())
			coverages = append(coverages, rest.Coverage())
		}
	}
	f.PitchMM = median(pitches)
	if look {
		f.WidthMM, f.WidestMM, f.Coverage = median(widths), median(widest), median(coverages)
	}
	return f
}

func median(of []float64) float64 {
	stable.Floats(of)
	return of[len(of)/2]
}

func meanOf(diameters []float64) float64 {
	mean := 0.0
	for _, d := range diameters {
		mean += d / float64(len(diameters))
	}
	return mean
}
