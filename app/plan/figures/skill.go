package figures

// Skill is how experienced a pair of hands is.
type Skill string

const (
	Beginner  Skill = "beginner"
	Practised Skill = "practised"
)
