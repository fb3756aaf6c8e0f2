package plan

// fishingLineRule packs strong line for signs and letters.
func fishingLineRule() packRule {
	return thing("supply/fishing-line", "bag/fixings", "Strong fishing line", "", false, func(d *draft) (int, string, Source) {
		signs := d.signs()
		if len(signs) == 0 {
			return 0, "", Source{}
		}
		return 1, signs[0].Name + " hangs on it from two points, tied to the frame, never to balloons", usual()
	})
}
