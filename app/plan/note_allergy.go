package plan

import "strings"

// allergyNotes repeats what the brief says of allergy where it cannot be missed, or asks.
func allergyNotes(d *noteDraft) {
	if !d.anyBalloon() {
		return
	}
	if said := strings.TrimSpace(d.job.Brief.Allergy); said != "" {
		d.warn("", "Latex: "+stopped(said)+" The décor is natural rubber latex; a notice for the door is on the pack list.")
		return
	}
	d.inform("", "Ask about latex allergy among guests and staff before you order: the décor is natural rubber latex.")
}
