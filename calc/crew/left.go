package crew

import "math"

// Progress is the progress of a task.
type Progress struct {
	Task      string
	Done      bool
	Share     float64 // of the task that is done, by its count; 0 to 1
	Practised float64 // person-minutes spent by practised people so far; 0 if unknown
	Beginners float64 // by beginners
	Ended     int     // the minute when it was done; 0 if unknown
}

// Left returns the remaining job at a minute. Done tasks are dropped, begun ones are smaller, and the rates follow the
// measurements by Learn, so that one slow tick does not decide. A begun task without a count has as much progress as
// its minutes say, at most nine tenths. Progress of unknown tasks is ignored.
func Left(job Job, now int, progress []Progress) Job {
	left := job
	left.Now = max(job.Now, now)
	left.Tasks = nil
	var seen []Seen
	arrived := 0
	for i := range job.Tasks {
		task := &job.Tasks[i]
		p := find(progress, task.Key)
		spent, share := task.spent(p), min(1, max(0, p.Share))
		if p.Done {
			share = 1
		}
		if share > 0 && spent > 0 && task.Minutes > 0 {
			skilled := max(0, p.Practised) / spent
			seen = append(
				seen,
				Seen{Kind: task.Kind, Planned: float64(task.Minutes * share), Actual: spent,
					Spread: task.spreadOf(skilled, 1-skilled) / math.Sqrt(share)},
			)
		}
		if p.Done {
			if task.Place == Load && p.Ended > 0 {
				arrived = max(arrived, p.Ended+job.Drive)
			}
			continue
		}
		if share == 0 && task.Minutes > 0 {
			_, factor, _ := job.rate(task.Kind)
			share = min(0.9, spent/float64(task.Minutes*factor))
		}
		left.Tasks = append(left.Tasks, *task)
		rest := &left.Tasks[len(left.Tasks)-1]
		rest.Minutes = float64(task.Minutes * (1 - share))
	}
	for i := range left.Tasks {
		if task := &left.Tasks[i]; task.Place == Site {
			task.From = max(task.From, arrived)
		}
	}
	left.Rates = Learn(job.Rates, seen)
	return left
}

// find returns the progress of a task, or the zero value.
func find(progress []Progress, task string) *Progress {
	for i := range progress {
		if progress[i].Task == task {
			return &progress[i]
		}
	}
	return &Progress{}
}

// spreadOf returns the spread of a task's time from the shares of its variance that come from practised people and from
// beginners.
func (t *Task) spreadOf(practised, beginners float64) float64 {
	unsteady := max(t.Spread, t.Unsteady)
	return math.Sqrt(float64(practised*float64(t.Spread*t.Spread)) + float64(beginners*float64(unsteady*unsteady)))
}

// spent returns the person-minutes spent, converted to those of practised people.
func (t *Task) spent(p *Progress) float64 {
	return max(0, p.Practised) + max(0, p.Beginners)/max(1, t.Beginner)
}
