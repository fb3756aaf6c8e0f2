package packing

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/rigging"
)

// cableTieRule packs cable ties for frames.
var cableTieRule = rule{family: "supply/cable-ties", bag: "bag/fixings", one: "Cable ties", unit: "ties",
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		each := d.Figures.Row("supply/cable-ties")
		frames := len(d.Frames)
		return figures.RoundUp(
			float64(float64(frames) * each.Value),
		), phrase.Number(each.Value) + " for each of " + phrase.Count(frames, "frame"), &each.Source
	}}
