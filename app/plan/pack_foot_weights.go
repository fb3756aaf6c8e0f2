package plan

// footWeightRule packs weights for the feet of frames, far more outdoors: a number for each, and more where a frame of
// known measures would tip over, see [rig.BackdropBallastKG].
var footWeightRule = packRule{
	family: "tool/foot-weights",
	bag:    "bag/frames",
	one:    "Weights for feet",
	unit:   "weights",
	kit:    true,
	need: func(d *Rig) (int, string, *Source) {
		each := d.figures.row(d.feetKey())
		reason := " on a firm floor"
		if d.outdoors() {
			reason = " outdoors, where wind pushes"
		}
		frames, need, more := 0, 0, ""
		for _, k := range d.frames {
			n := max(1, k.Count)
			frames += n
			weights, leans := d.feet(k)
			if need += n * weights; leans {
				more = "; or as many of " + d.footWeight() + " as a frame needs to stand when somebody leans on it" + d.gustWords(k)
			}
		}
		return need, number(each.Value) + " for each of " + count(frames, "frame") + reason + more, &each.Source
	},
}
