package plan

// briefNotes hands on what the brief notes, to whoever opens the job.
func briefNotes(d *noteDraft) {
	if notes := briefWords(&d.job.Brief); notes != "" {
		d.inform("", "From the brief: "+notes)
	}
}
