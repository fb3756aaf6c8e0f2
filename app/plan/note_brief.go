package plan

import "garlandry/app/plan/task"

// briefNotes shows the notes of the brief.
func briefNotes(d *draft) {
	if notes := task.BriefWords(&d.Job.Brief); notes != "" {
		d.Inform("", "From the brief: "+notes)
	}
}
