package plan

// footWeightRule packs weights for the feet of frames and columns, far more outdoors.
var footWeightRule = packRule{family: "tool/foot-weights", bag: "bag/frames", one: "Weights for feet", unit: "weights", kit: true,
	need: func(d *draft) (int, string, *Source) {
		each := d.figures.row("supply/foot-weights")
		reason := " on a firm floor"
		if d.outdoors() {
			each = d.figures.row("supply/foot-weights-out")
			reason = " outdoors, where wind pushes"
		}
		frames := 0
		for _, k := range d.framesUsed() {
			frames += max(1, k.Count)
		}
		return up(float64(float64(frames) * each.Value)), number(each.Value) + " for each of " + count(frames, "frame") + reason, &each.Source
	}}
