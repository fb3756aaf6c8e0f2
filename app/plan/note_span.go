package plan

// spanNotes warns about frames set wider than their top bar was tested.
func spanNotes(d *draft) {
	for _, k := range d.Frames {
		switch {
		case k.WidthMM <= 0 || k.TestedMM >= k.WidthMM || !d.HasBar(k):
		case k.TestedMM > 0:
			d.Warn("", k.Name+": "+d.Length(k.WidthMM)+" between the posts, but its top bar is tested up to "+
				d.Length(k.TestedMM)+" only. Test it at this width or set it narrower.")
		default:
			d.Warn("", k.Name+": its top bar was never tested at "+d.Length(k.WidthMM)+
				". There is a card for testing it at home.")
		}
	}
}
