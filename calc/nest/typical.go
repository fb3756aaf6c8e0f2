package nest

import "garlandry/calc/order"

// Figures are what a string of clusters measures.
type Figures struct {
	PitchMM, GirthMM float64
	// Coverage is the share, 0 to 1, of the band of the girth that is hidden.
	Coverage float64
}

const (
	typicalStarts   = 5
	typicalClusters = 20
)

// Typical is what a string measures at a push: strings of twenty clusters are
// pushed together from five starts, and each figure is the median. Strings
// started differently differ by one or two percent; quads near a push of 0.2 by
// up to a quarter, because there their clusters fold flat, one after another,
// and strings fold at slightly different pushes. Errors wrap ErrSpheres.
func Typical(diametersMM []float64, push float64) (Figures, error) {
	var all starts
	for start := range typicalStarts {
		rest, err := Pushed(diametersMM, typicalClusters, push, uint64(start)+1)
		if err != nil {
			return Figures{}, err
		}
		all.put(start, rest)
	}
	return all.typical(), nil
}

// starts are what the strings of Typical measure: pitches, girths, coverages.
type starts [3][typicalStarts]float64

func (s *starts) put(start int, r Rest) {
	s[0][start], s[1][start], s[2][start] = r.PitchMM(), r.GirthMM(), r.Coverage()
}

func (s *starts) typical() Figures {
	return Figures{PitchMM: median(s[0][:]), GirthMM: median(s[1][:]), Coverage: median(s[2][:])}
}

func median(of []float64) float64 {
	order.Float64s(of)
	return of[len(of)/2]
}

func meanOf(diameters []float64) float64 {
	mean := 0.0
	for _, d := range diameters {
		mean += d / float64(len(diameters))
	}
	return mean
}
