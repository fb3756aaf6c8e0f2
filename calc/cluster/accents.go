package cluster

import "math"

// Covered describes the effect of accents on a base.
type Covered struct {
	// Accents is the number of accent clusters.
	Accents int `json:"accents"`
	// Before and After are the hidden shares, 0 to 1, of the base's band.
	Before float64 `json:"before"`
	After  float64 `json:"after"`
}

// MostCovered is the highest cover that may be requested. Scattered accents overlap, so covering the last of the
// background would take an unlimited number.
const MostCovered = 0.995

// Accents returns how many accent clusters hide the wanted share, 0 to MostCovered, of the band of a base, which is as
// wide as the base looks. It assumes scattered accents: each hides its share of what is still visible, so n of them
// leave (1 - before) exp(-n a / A), with a the disc that an accent seems to be and A the band (the Boolean model of
// stochastic geometry, from memory). Placing each where most is visible takes fewer. It rounds up once and ignores a
// thousandth.
func Accents(lengthMM float64, base, accent Recipe, p Push, wished float64) Covered {
	before := Measure(base, p)
	covered := Covered{Before: before.Coverage, After: before.Coverage}
	each := accentShare(lengthMM, before.WidthMM, BallSeenMM(accent))
	wished = min(wished, MostCovered)
	if !(each > 0) || !(wished > before.Coverage) {
		return covered
	}
	needed := math.Log((1-before.Coverage)/(1-wished)) / each
	covered.Accents = int(math.Ceil(min(needed, math.MaxInt32) - clusterTolerance))
	covered.After = covering(before.Coverage, covered.Accents, each)
	return covered
}

// AccentsCover returns the effect of a number of accent clusters on a base, by the rule of Accents.
func AccentsCover(lengthMM float64, base, accent Recipe, p Push, accents int) Covered {
	before := Measure(base, p)
	accents = max(accents, 0)
	each := accentShare(lengthMM, before.WidthMM, BallSeenMM(accent))
	return Covered{Accents: accents, Before: before.Coverage, After: covering(before.Coverage, accents, each)}
}

func covering(before float64, accents int, each float64) float64 {
	return 1 - float64((1-before)*math.Exp(-float64(accents)*each))
}

// accentShare returns the part of the band that one accent's disc covers.
func accentShare(lengthMM, widthMM, ballMM float64) float64 {
	band := lengthMM * widthMM
	if !(band > 0) || math.IsInf(band, 0) {
		return 0
	}
	return math.Pi / 4 * ballMM * ballMM / band
}
