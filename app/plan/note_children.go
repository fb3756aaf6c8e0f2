package plan

import "strings"

// childrenNotes repeats what the brief says of children.
func childrenNotes(d *noteDraft) {
	if said := strings.TrimSpace(d.job.Brief.Children); said != "" && d.anyBalloon() {
		d.warn(
			"",
			"Children: "+stopped(
				said,
			)+" Under eight they can choke on empty or burst balloons: keep balloons out of reach and pick pieces up at once.",
		)
	}
}
