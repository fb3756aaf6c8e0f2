package plan

// spanNotes warns of top bars longer than they were tested at.
func spanNotes(d *draft) {
	for _, k := range d.Frames {
		switch {
		case k.WidthMM <= 0 || k.TestedMM >= k.WidthMM || !d.HasBar(k):
		case k.TestedMM > 0:
			d.Warn(
				"",
				k.Name+": "+d.Length(k.WidthMM)+" between the posts, but its top bar was tested at "+d.Length(
					k.TestedMM,
				)+" only. No bar longer than it was tested at: test it, or set it narrower.",
			)
		default:
			d.Warn("", k.Name+": its top bar was never tested at "+d.Length(k.WidthMM)+". There is a card for the test at home.")
		}
	}
}
