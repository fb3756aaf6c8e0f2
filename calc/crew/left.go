package crew

import "math"

// Progress is the progress of a task.
type Progress struct {
	Task        string
	Done        bool
	Share       float64 // of the task that is done, by its count; 0 to 1
	Practised   float64 // person-minutes spent by practised people so far; 0 if unknown
	Beginners   float64 // by beginners
	ByPractised float64 // share of the task that practised people did in their minutes; 0 if unknown
	ByBeginners float64 // likewise
	Ended       int     // the minute when it was done; 0 if unknown
}

// leastLeft is the least that is left of a task, in person-minutes, so that somebody does it.
const leastLeft = 0.1

// Left returns the remaining job at a minute. Done tasks are dropped, begun ones are smaller, and the rates follow the
// measurements by Learn, so that one slow tick does not decide. Only a share done in known minutes is a measurement. A
// begun task without a count has as much progress as its minutes say, at most nine tenths. Progress of unknown tasks is
// ignored.
func Left(job Job, now int, progress []Progress) Job {
	left := job
	left.Now = max(job.Now, now)
	left.Tasks = nil
	var seen []Seen
	arrived := 0
	for i := range job.Tasks {
		task := &job.Tasks[i]
		p := find(progress, task.Key)
		seen = append(seen, task.Seen(p)...)
		if p.Done {
			if task.Place == Load && p.Ended > 0 {
				arrived = max(arrived, p.Ended+job.Drive)
			}
			continue
		}
		share := min(1, max(0, p.Share))
		if share == 0 && task.Minutes > 0 {
			_, factor, _ := job.rate(task.Kind)
			share = min(0.9, task.spent(p)/float64(task.Minutes*factor))
		}
		left.Tasks = append(left.Tasks, *task)
		rest := &left.Tasks[len(left.Tasks)-1]
		rest.Minutes = max(float64(task.Minutes*(1-share)), min(task.Minutes, leastLeft))
	}
	for i := range left.Tasks {
		if task := &left.Tasks[i]; task.Place == Site {
			task.From = max(task.From, arrived)
		}
	}
	left.Rates = Learn(job.Rates, seen)
	return left
}

// Seen returns what the progress measured of the task, for each skill. A part of a task counts less than all of it: its
// spread is that of the task divided by the root of the share.
func (t *Task) Seen(p *Progress) (seen []Seen) {
	add := func(practised bool, share, actual, factor, spread float64) {
		share = min(1, share)
		if planned := float64(t.Minutes * factor * share); share > 0 && planned > 0 && actual > 0 {
			seen = append(seen, Seen{Kind: t.Kind, Practised: practised, Planned: planned, Actual: actual,
				Spread: spread / math.Sqrt(share)})
		}
	}
	add(true, p.ByPractised, p.Practised, 1, t.Spread)
	add(false, p.ByBeginners, p.Beginners, max(1, t.Beginner), max(t.Spread, t.Unsteady))
	return seen
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
