package crew

// speeds holds the speed of teams: thousandths of a person-minute of practised, uncrowded work per minute.
type speeds struct {
	beginner int   // of one beginner alone; one practised person has 1000
	gain     []int // thousandths of their own speed that the first, second, ... hand adds
}

// newSpeeds returns the speeds of teams on a task. With n equal hands each loses crowding for every other one,
// n(1-c(n-1)) in total, so the n-th adds 1-2c(n-1). The faster are counted first, and nobody reduces the total.
func newSpeeds(task *Task) speeds {
	s := speeds{beginner: 1000, gain: make([]int, task.Most+1)}
	if task.Beginner > 1 {
		s.beginner = max(1, int(1000/task.Beginner+0.5))
	}
	for n := range task.Most {
		s.gain[n] = max(0, int(float64(1000*(1-float64(2*task.Crowding*float64(n))))+0.5))
	}
	return s
}

// team returns the work that a team of practised people and beginners does in a minute.
func (s *speeds) team(practised, beginners int) int {
	sum := 0
	for n := range practised + beginners {
		if n < practised {
			sum += s.gain[n]
		} else {
			sum += s.gain[n] * s.beginner / 1000
		}
	}
	return max(1, sum)
}

// minutesFor returns how long work takes at a speed, rounded up.
func minutesFor(work, speed int) int { return (work + speed - 1) / speed }
