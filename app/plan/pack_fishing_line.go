package plan

// fishingLineRule packs strong line for signs and letters.
var fishingLineRule = packRule{family: "supply/fishing-line", bag: "bag/fixings", one: "Strong fishing line",
	need: func(d *Rig) (int, string, *Source) {
		signs := d.signs()
		if len(signs) == 0 {
			return 0, "", nil
		}
		return 1, signs[0].Name + " hangs on it from two points, tied to the frame, never to balloons. " + d.lineHolds(
			signs[0],
		), &usual
	}}
