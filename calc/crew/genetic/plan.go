package genetic

// Plan is one schedule: when each task starts and finishes, and what it costs.
type Plan struct {
	Start, Finish []int
	Genes         []uint8 // how each task is done, for problems that have a choice; may be nil
	Cost          int     // less is better
}

// NewPlan returns a plan with room for the given number of tasks.
func NewPlan(tasks int, genes bool) Plan {
	p := Plan{Start: make([]int, tasks), Finish: make([]int, tasks)}
	if genes {
		p.Genes = make([]uint8, tasks)
	}
	return p
}

// Copy copies p into to without allocating.
func (p *Plan) Copy(to *Plan) {
	copy(to.Start, p.Start)
	copy(to.Finish, p.Finish)
	copy(to.Genes, p.Genes)
	to.Cost = p.Cost
}

// Problem turns an order of tasks into a plan.
type Problem interface {
	// Tasks returns the number of tasks. They are numbered from 0.
	Tasks() int
	// Genes returns the number of ways to do a task: 1 if there is no choice.
	Genes(task int) int
	// Weight returns how much of the scarce resources a task uses each minute.
	Weight(task int) int
	// Bound returns a cost that no plan can beat.
	Bound() int
	// Forward schedules every task as early as possible, lower keys first, and writes Start, Finish and Cost. The keys
	// need not respect precedence. It reads the genes and may correct them.
	Forward(keys []int, plan *Plan)
	// Backward schedules every task as late as possible, lower keys first.
	Backward(keys []int, plan *Plan)
}
