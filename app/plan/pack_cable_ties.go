package plan

// cableTieRule packs cable ties for frames.
var cableTieRule = packRule{family: "supply/cable-ties", bag: "bag/fixings", one: "Cable ties", unit: "ties",
	need: func(d *Rig) (int, string, *Source) {
		each := d.figures.row("supply/cable-ties")
		frames := len(d.frames)
		return up(
			float64(float64(frames) * each.Value),
		), number(each.Value) + " for each of " + count(frames, "frame"), &each.Source
	}}
