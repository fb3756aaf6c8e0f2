package plan

import "garlandry/app/plan/task"

// briefNotes hands on what the brief notes, to whoever opens the job.
func briefNotes(d *draft) {
	if notes := task.BriefWords(&d.Job.Brief); notes != "" {
		d.Inform("", "From the brief: "+notes)
	}
}
