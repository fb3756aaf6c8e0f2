package figures

// Skill is how experienced a person is.
type Skill string

// The skills.
const (
	Beginner  Skill = "beginner"
	Practised Skill = "practised"
)

// MeanMinutes returns a crew's minutes for work that beginners do in slow and practised people in fast minutes. It is
// the harmonic mean over the crew, because fast hands do more of the shared work; 0 if either takes no time.
func MeanMinutes(crew []Skill, slow, fast float64) float64 {
	rate := 0.0
	for _, s := range crew {
		minutes := slow
		if s == Practised {
			minutes = fast
		}
		if !(minutes > 0) {
			return 0
		}
		rate += 1 / minutes
	}
	return float64(len(crew)) / rate
}
