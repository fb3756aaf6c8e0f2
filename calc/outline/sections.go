package outline

import "math"

// MostSections is the most sections that [Sections] cuts a length into.
const MostSections = 10_000

// sectionTolerance is for a length that is a whole number of sections but for
// rounding (one part in 10^9) be cut into that number.
const sectionTolerance = 1e-9

// Sections cuts lengthMM into the fewest equal shares of at most maxMM each,
// and returns the length of each. A maxMM of 0 or less means no limit: one
// section. Nil when the length is not a number above 0. At most [MostSections]
// are made, so for a limit under 1/10 000 of the length the shares are longer
// than the limit.
func Sections(lengthMM, maxMM float64) []float64 {
	if !(lengthMM > 0) || math.IsInf(lengthMM, 0) {
		return nil
	}
	count := 1
	if maxMM > 0 {
		wanted := math.Ceil(lengthMM/maxMM - sectionTolerance)
		count = int(math.Min(math.Max(wanted, 1), MostSections))
	}
	sections := make([]float64, count)
	for i := range sections {
		sections[i] = lengthMM / float64(count)
	}
	return sections
}
