package figures

// Skill is how experienced a person is.
type Skill string

// The skills.
const (
	Beginner  Skill = "beginner"
	Practised Skill = "practised"
)
