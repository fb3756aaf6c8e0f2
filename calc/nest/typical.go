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
	var pitch, girth, coverage [typicalStarts]float64
	for start := range typicalStarts {
		rest, err := Pushed(diametersMM, typicalClusters, push, uint64(start)+1)
		if err != nil {
			return Figures{}, err
		}
		pitch[start], girth[start], coverage[start] = rest.PitchMM(), rest.GirthMM(), rest.Coverage()
	}
	return Figures{PitchMM: median(pitch[:]), GirthMM: median(girth[:]), Coverage: median(coverage[:])}, nil
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
