package crew_test

import "garlandry/calc/crew"

// moreHands adds a person.
func moreHands(p crew.Person) func(crew.Job) crew.Job {
	return func(j crew.Job) crew.Job {
		j.People = append(append([]crew.Person(nil), j.People...), p)
		return j
	}
}

// moreOf adds units of a thing.
func moreOf(thing string, count int) func(crew.Job) crew.Job {
	return func(j crew.Job) crew.Job {
		j.Things = append([]crew.Thing(nil), j.Things...)
		for i := range j.Things {
			if j.Things[i].Key == thing {
				j.Things[i].Count += max(0, count)
			}
		}
		return j
	}
}

// sooner opens the first window of a place the given number of minutes earlier.
func sooner(place crew.Place, minutes int) func(crew.Job) crew.Job {
	return func(j crew.Job) crew.Job {
		if windows := &j.Windows[place]; len(*windows) > 0 {
			*windows = append([]crew.Interval(nil), *windows...)
			(*windows)[0].From -= max(0, minutes)
		}
		return j
	}
}

// lighten reduces a task's work to a share: thinner accents, a simpler recipe.
func lighten(task string, share float64) func(crew.Job) crew.Job {
	return func(j crew.Job) crew.Job {
		if t := own(&j, task); t != nil {
			t.Minutes = float64(t.Minutes * min(1, max(0, share)))
		}
		return j
	}
}

// own gives the job its own copy of the tasks and returns the task with a key, or nil.
func own(j *crew.Job, key string) *crew.Task {
	j.Tasks = append([]crew.Task(nil), j.Tasks...)
	for i := range j.Tasks {
		if j.Tasks[i].Key == key {
			return &j.Tasks[i]
		}
	}
	return nil
}
