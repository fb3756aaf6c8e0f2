package crew

// Cost is what a change asks for.
type Cost struct {
	Minutes float64 // of work elsewhere, such as on an evening before
	Cents   int
	Look    float64 // how much is missed, on the caller's scale
}

// Lever is a change that the caller could make.
type Lever struct {
	Key   string // the caller's name for it
	Cost  Cost
	Price float64 // all of the cost in one number, by which levers are compared; 0 or more
	Apply func(Job) Job
}

// MoreHands brings another person.
func MoreHands(p Person) func(Job) Job {
	return func(j Job) Job {
		j.People = append(append([]Person(nil), j.People...), p)
		return j
	}
}

// MoreOf borrows more of a thing.
func MoreOf(thing string, count int) func(Job) Job {
	return func(j Job) Job {
		j.Things = append([]Thing(nil), j.Things...)
		for i := range j.Things {
			if j.Things[i].Key == thing {
				j.Things[i].Count += max(0, count)
			}
		}
		return j
	}
}

// Sooner opens the first window of a place so many minutes earlier.
func Sooner(place Place, minutes int) func(Job) Job {
	return func(j Job) Job {
		if windows := &j.Windows[place%places]; len(*windows) > 0 {
			*windows = append([]Interval(nil), *windows...)
			(*windows)[0].From -= max(0, minutes)
		}
		return j
	}
}

// LeaveOut drops the tasks for which out says so.
func LeaveOut(out func(Task) bool) func(Job) Job {
	return func(j Job) Job {
		tasks := j.Tasks
		j.Tasks = nil
		for i := range tasks {
			if !out(tasks[i]) {
				j.Tasks = append(j.Tasks, tasks[i])
			}
		}
		return j
	}
}

// Lighten leaves a share of a task's work: thinner accents, a simpler recipe.
func Lighten(task string, share float64) func(Job) Job {
	return func(j Job) Job {
		if t := j.own(task); t != nil {
			t.Minutes = float64(t.Minutes * min(1, max(0, share)))
		}
		return j
	}
}

// own gives the job a list of tasks that no other job has, and the task with a key
// in it, nil if there is none.
func (j *Job) own(key string) *Task {
	j.Tasks = append([]Task(nil), j.Tasks...)
	for i := range j.Tasks {
		if j.Tasks[i].Key == key {
			return &j.Tasks[i]
		}
	}
	return nil
}
