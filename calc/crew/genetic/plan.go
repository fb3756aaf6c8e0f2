package genetic

// Plan is one schedule: when each task starts and finishes, and what it costs.
type Plan struct {
	Start, Finish []int
	Genes         []uint8 // how each task is done, for problems that have a choice; may be nil
	Cost          int     // less is better
}

// NewPlan is room for a plan of so many tasks.
func NewPlan(tasks int, genes bool) Plan {
	p := Plan{Start: make([]int, tasks), Finish: make([]int, tasks)}
	if genes {
		p.Genes = make([]uint8, tasks)
	}
	return p
}

// Copy makes to the same plan as p without new room.
func (p *Plan) Copy(to *Plan) {
	copy(to.Start, p.Start)
	copy(to.Finish, p.Finish)
	copy(to.Genes, p.Genes)
	to.Cost = p.Cost
}

// Problem turns an order of tasks into a plan.
type Problem interface {
	// Tasks is how many tasks there are; they are numbered from 0.
	Tasks() int
	// Genes is how many ways there are to do a task: 1 where there is no choice.
	Genes(task int) int
	// Weight is how much of what is scarce a task uses each minute.
	Weight(task int) int
	// Bound is a cost that no plan can beat.
	Bound() int
	// Forward schedules every task as early as it can, lower keys first, and
	// writes Start, Finish and Cost. The keys need not respect what comes before
	// what. Genes are read, and may be mended.
	Forward(keys []int, plan *Plan)
	// Backward schedules every task as late as it can, lower keys first.
	Backward(keys []int, plan *Plan)
}
