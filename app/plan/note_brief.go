package plan

import "strings"

// briefNotes hands on what the brief notes, to whoever opens the job.
func briefNotes(d *draft) {
	if notes := d.briefWords(); notes != "" {
		d.inform("", "From the brief: "+notes)
	}
}

// briefWords is what the brief notes, as one paragraph; empty if it notes nothing.
func (d *draft) briefWords() string {
	words := strings.Join(strings.Fields(d.job.Brief.Notes), " ")
	if words == "" {
		return ""
	}
	return stopped(words)
}
