package packing

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/rigging"
)

// footWeightRule packs weights for the feet of frames, far more outdoors: a number for each, and more where a frame of
// known measures would tip over, see [rig.BackdropBallastKG].
var footWeightRule = rule{
	family: "tool/foot-weights",
	bag:    "bag/frames",
	one:    "Weights for feet",
	unit:   "weights",
	kit:    true,
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		each := d.Figures.Row(d.FeetKey())
		reason := " on a firm floor"
		if d.Outdoors() {
			reason = " outdoors, where wind pushes"
		}
		frames, need, more := 0, 0, ""
		for _, k := range d.Frames {
			n := max(1, k.Count)
			frames += n
			weights, leans := d.Feet(k)
			if need += n * weights; leans {
				more = "; or as many of " + d.FootWeight() + " as a frame needs to stand when somebody leans on it" + d.GustWords(k)
			}
		}
		return need, phrase.Number(each.Value) + " for each of " + phrase.Count(frames, "frame") + reason + more, &each.Source
	},
}
