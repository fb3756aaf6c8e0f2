package plan

// clampRule packs clamps for frames.
var clampRule = packRule{family: "tool/clamps", bag: "bag/frames", one: "Clamps", unit: "clamps", kit: true,
	need: func(d *Rig) (int, string, *Source) {
		each := d.figures.row("supply/clamps")
		frames := len(d.frames)
		return up(
			float64(float64(frames) * each.Value),
		), number(each.Value) + " for each of " + count(frames, "frame"), &each.Source
	}}
