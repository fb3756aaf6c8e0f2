package cluster

import "math"

// Covered is the effect of accents on a base.
type Covered struct {
	// Accents is how many accent clusters.
	Accents int `json:"accents"`
	// Before and After are the shares, 0 to 1, of the base's band that is hidden.
	Before float64 `json:"before"`
	After  float64 `json:"after"`
}

// MostCovered is the highest cover to ask for. Scattered accents overlap, so the last of the background would take
// any number.
const MostCovered = 0.995

// Accents returns how many accent clusters hide the wished share, 0 to MostCovered, of the band of a base. It assumes
// scattered accents: each hides its share of what still shows, so n of them leave (1 - before) exp(-n a / A), with a
// the disc of the accent's ball and A the band (the Boolean model of stochastic geometry, from memory). Placing each
// where most shows takes fewer. It rounds up once and ignores a thousandth.
func Accents(lengthMM float64, base, accent Recipe, p Push, wished float64) Covered {
	before := Measure(base, p)
	covered := Covered{Before: before.Coverage, After: before.Coverage}
	each := accentShare(lengthMM, before.GirthMM, Measure(accent, p).BallMM)
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
	each := accentShare(lengthMM, before.GirthMM, Measure(accent, p).BallMM)
	return Covered{Accents: accents, Before: before.Coverage, After: covering(before.Coverage, accents, each)}
}

func covering(before float64, accents int, each float64) float64 {
	return 1 - float64((1-before)*math.Exp(-float64(accents)*each))
}

// accentShare returns the part of the band that one accent's disc takes.
func accentShare(lengthMM, girthMM, ballMM float64) float64 {
	band := lengthMM * girthMM
	if !(band > 0) || math.IsInf(band, 0) {
		return 0
	}
	return math.Pi / 4 * ballMM * ballMM / band
}
