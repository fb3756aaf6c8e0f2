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
		if windows := j.Windows[place%places]; len(windows) > 0 {
			windows = append([]Interval(nil), windows...)
			windows[0].From -= max(0, minutes)
			j.Windows[place%places] = windows
		}
		return j
	}
}

// LeaveOut drops the tasks for which out says so.
func LeaveOut(out func(Task) bool) func(Job) Job {
	return func(j Job) Job {
		var tasks []Task
		for _, task := range j.Tasks {
			if !out(task) {
				tasks = append(tasks, task)
			}
		}
		j.Tasks = tasks
		return j
	}
}

// Lighten leaves a share of a task's work: thinner accents, a simpler recipe.
func Lighten(task string, share float64) func(Job) Job {
	return func(j Job) Job {
		j.Tasks = append([]Task(nil), j.Tasks...)
		for i := range j.Tasks {
			if j.Tasks[i].Key == task {
				j.Tasks[i].Minutes = float64(j.Tasks[i].Minutes * min(1, max(0, share)))
			}
		}
		return j
	}
}

// AtHome does a share of a site task's work at home, as a task of its own with the
// key TASK/home that loading waits for.
func AtHome(task string, share float64) func(Job) Job {
	return func(j Job) Job {
		share := min(1, max(0, share))
		tasks := append([]Task(nil), j.Tasks...)
		for i, t := range j.Tasks {
			if t.Key != task || t.Place != Site {
				continue
			}
			home := t
			home.Key, home.Place, home.Before, home.From, home.Needs = t.Key+"/home", Home, nil, 0, nil
			home.Minutes = float64(t.Minutes * share)
			tasks[i].Minutes = t.Minutes - home.Minutes
			tasks[i].Before = append(append([]string(nil), t.Before...), home.Key)
			for k := range tasks {
				if tasks[k].Place == Load {
					tasks[k].Before = append(append([]string(nil), tasks[k].Before...), home.Key)
				}
			}
			tasks = append(tasks, home)
		}
		j.Tasks = tasks
		return j
	}
}
