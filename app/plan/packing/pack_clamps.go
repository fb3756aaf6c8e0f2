package packing

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/rigging"
)

// clampRule packs clamps for frames.
var clampRule = rule{family: "tool/clamps", bag: "bag/frames", one: "Clamps", unit: "clamps", kit: true,
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		each := d.Figures.Row("supply/clamps")
		frames := len(d.Frames)
		return figures.RoundUp(
			float64(float64(frames) * each.Value),
		), phrase.Number(each.Value) + " for each of " + phrase.Count(frames, "frame"), &each.Source
	}}
