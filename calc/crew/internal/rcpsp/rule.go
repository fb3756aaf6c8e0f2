package rcpsp

// Rule is a priority rule: which of the tasks that may go next goes first.
type Rule string

// The rules compared in R. Kolisch, "Efficient priority rules for the
// resource-constrained project scheduling problem" (Journal of Operations
// Management 14, 1996).
const (
	LatestFinish   Rule = "latest finish time"
	LatestStart    Rule = "latest start time"
	MostTotalAfter Rule = "most total successors"
	GreatestRank   Rule = "greatest rank positional weight" // own duration and that of what waits for it directly
	ShortestFirst  Rule = "shortest processing time"
)

// Rules lists every rule, the best on average first.
func Rules() []Rule {
	return []Rule{LatestFinish, LatestStart, MostTotalAfter, GreatestRank, ShortestFirst}
}

// Keys is one number for each task: those with a lower one go first. A rule that
// is not listed gives the order of the tasks.
func (p *Project) Keys(rule Rule) []int {
	keys := make([]int, len(p.duration))
	for task := range keys {
		switch rule {
		case LatestFinish:
			keys[task] = p.critical - p.tail[0][task] + p.duration[task]
		case LatestStart:
			keys[task] = p.critical - p.tail[0][task]
		case MostTotalAfter:
			keys[task] = -p.allAfter(task)
		case GreatestRank:
			keys[task] = -p.duration[task]
			for _, next := range p.after[0][task] {
				keys[task] -= p.duration[next]
			}
		case ShortestFirst:
			keys[task] = p.duration[task]
		default:
			keys[task] = task
		}
	}
	return keys
}

// allAfter counts the tasks that cannot begin before this one ends.
func (p *Project) allAfter(task int) int {
	seen := make([]bool, len(p.duration))
	count := 0
	for stack := []int{task}; len(stack) > 0; {
		at := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		for _, next := range p.after[0][at] {
			if !seen[next] {
				seen[next] = true
				count++
				stack = append(stack, next)
			}
		}
	}
	return count
}
