package figures

// skill is how used a pair of hands is to the work.
type Skill string

const (
	Beginner  Skill = "beginner"
	Practised Skill = "practised"
)
