package plan

import (
	"strings"

	"garlandry/app/plan/phrase"
)

// childrenNotes repeats what the brief says of children.
func childrenNotes(d *draft) {
	if said := strings.TrimSpace(d.Job.Brief.Children); said != "" && d.AnyBalloon() {
		d.Warn(
			"",
			"Children: "+phrase.Sentence(
				said,
			)+" Under eight they can choke on empty or burst balloons: keep balloons out of reach and pick pieces up at once.",
		)
	}
}
