package packing

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/rigging"
)

// fishingLineRule packs strong line for signs and letters.
var fishingLineRule = rule{family: "supply/fishing-line", bag: "bag/fixings", one: "Strong fishing line",
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		signs := d.Signs()
		if len(signs) == 0 {
			return 0, "", nil
		}
		return 1, signs[0].Name + " hangs on it from two points, tied to the frame, never to balloons. " + d.LineHolds(
			signs[0],
		), &figures.Usual
	}}
