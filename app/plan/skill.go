package plan

// skill is how used a pair of hands is to the work.
type skill string

const (
	beginner  skill = "beginner"
	practised skill = "practised"
)
