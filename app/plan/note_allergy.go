package plan

import (
	"strings"

	"garlandry/app/plan/phrase"
)

// allergyNotes repeats what the brief says of allergy where it cannot be missed, or asks.
func allergyNotes(d *draft) {
	if !d.AnyBalloon() {
		return
	}
	if said := strings.TrimSpace(d.Job.Brief.Allergy); said != "" {
		d.Warn("", "Latex: "+phrase.Sentence(said)+" The décor is natural rubber latex; a notice for the door is on the "+
			"pack list.")
		return
	}
	d.Inform("", "Ask about latex allergy among guests and staff before you order: the décor is natural rubber latex.")
}
