package outline

import "math"

// MostSections is the largest number of sections that [Sections] returns.
const MostSections = 10_000

// sectionTolerance absorbs rounding: a length within one part in 10^9 of a whole number of sections is cut into that
// number.
const sectionTolerance = 1e-9

// Sections divides lengthMM into the fewest equal sections of at most maxMM each, and returns the length of each. A
// maxMM of 0 or less means no limit: one section. It returns nil unless the length is a number above 0. It returns at
// most [MostSections], so for a limit under 1/10 000 of the length the sections are longer than the limit.
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
