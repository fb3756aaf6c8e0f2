package crew

import "math"

// Progress is how far a task is.
type Progress struct {
	Task      string
	Done      bool
	Share     float64 // of the task that is done, by its count; 0 to 1
	Practised float64 // person-minutes spent by practised hands so far; 0 if not known
	Beginners float64 // by beginners
	Ended     int     // the minute it was done; 0 if not known
}

// Left is the job that is left at a minute: tasks that are done are out, those begun
// smaller, and the rates follow what was seen, by Learn, so that one slow tick does
// not decide. A task that was begun and is not counted is as far as its minutes say,
// at most nine tenths. Progress of tasks that are not in the job is passed over.
func Left(job Job, now int, progress []Progress) Job {
	left := job
	left.Now = max(job.Now, now)
	left.Tasks = nil
	left.Rates = Learn(job.Rates, job.seen(progress))
	arrived := 0
	for _, task := range job.Tasks {
		p := find(progress, task.Key)
		if p.Done {
			if task.Place == Load && p.Ended > 0 {
				arrived = max(arrived, p.Ended+job.Drive)
			}
			continue
		}
		task.Minutes = float64(task.Minutes * (1 - job.share(task, p)))
		left.Tasks = append(left.Tasks, task)
	}
	for i := range left.Tasks {
		if left.Tasks[i].Place == Site {
			left.Tasks[i].From = max(left.Tasks[i].From, arrived)
		}
	}
	return left
}

func find(progress []Progress, task string) Progress {
	for _, p := range progress {
		if p.Task == task {
			return p
		}
	}
	return Progress{}
}

// spent is the person-minutes of practised hands that were put in.
func (t *Task) spent(p Progress) float64 {
	return max(0, p.Practised) + max(0, p.Beginners)/max(1, t.Beginner)
}

// share is how much of a task that is not done is done.
func (j *Job) share(task Task, p Progress) float64 {
	if p.Share > 0 || task.Minutes <= 0 {
		return min(1, max(0, p.Share))
	}
	return min(0.9, task.spent(p)/float64(task.Minutes*j.rate(task.Kind).Factor))
}

// seen is what progress tells of rates: tasks done or counted whose minutes are known.
func (j *Job) seen(progress []Progress) []Seen {
	var rows []Seen
	for _, task := range j.Tasks {
		p := find(progress, task.Key)
		share := min(1, max(0, p.Share))
		if p.Done {
			share = 1
		}
		if minutes := task.spent(p); share > 0 && minutes > 0 && task.Minutes > 0 {
			rows = append(rows, Seen{Kind: task.Kind, Planned: float64(task.Minutes * share), Actual: minutes, Spread: task.Spread / math.Sqrt(share)})
		}
	}
	return rows
}
