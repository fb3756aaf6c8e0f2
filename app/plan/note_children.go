package plan

import (
	"strings"

	"garlandry/app/plan/phrase"
)

// childrenNotes repeats what the brief says about children.
func childrenNotes(d *draft) {
	if children := strings.TrimSpace(d.Job.Brief.Children); children != "" && d.AnyBalloon() {
		d.Warn("", "Children: "+phrase.Sentence(children)+" Children under eight can choke on empty or burst balloons: "+
			"keep balloons out of reach and pick up pieces at once.")
	}
}
