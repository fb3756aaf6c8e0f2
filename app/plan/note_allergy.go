package plan

import (
	"strings"

	"garlandry/app/plan/phrase"
)

// allergyNotes repeats what the brief says about allergy, or asks.
func allergyNotes(d *draft) {
	if !d.AnyBalloon() {
		return
	}
	if allergy := strings.TrimSpace(d.Job.Brief.Allergy); allergy != "" {
		d.Warn("", "Latex: "+phrase.Sentence(allergy)+" The décor is natural rubber latex; a notice for the door is on the "+
			"pack list.")
		return
	}
	d.Inform("", "Before you order, ask whether guests or staff are allergic to latex: the décor is natural rubber latex.")
}
