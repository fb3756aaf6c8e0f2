package plan

// spanNotes warns of top bars longer than they were tested at.
func spanNotes(d *noteDraft) {
	for _, k := range d.frames {
		switch {
		case k.WidthMM <= 0 || k.TestedMM >= k.WidthMM || !d.hasBar(k):
		case k.TestedMM > 0:
			d.warn(
				"",
				k.Name+": "+d.length(k.WidthMM)+" between the posts, but its top bar was tested at "+d.length(
					k.TestedMM,
				)+" only. No bar longer than it was tested at: test it, or set it narrower.",
			)
		default:
			d.warn("", k.Name+": its top bar was never tested at "+d.length(k.WidthMM)+". There is a card for the test at home.")
		}
	}
}
