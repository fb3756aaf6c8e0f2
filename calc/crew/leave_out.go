package crew

// LeaveOut returns a change that drops the tasks for which out returns true.
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
