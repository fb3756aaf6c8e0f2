package packing

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/rigging"
)

// ladderRule packs a step ladder if something is high and the kit names none.
var ladderRule = rule{family: "tool/ladder", bag: "bag/loose", one: "Step ladder", kit: true,
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		limit := d.Figures.Row("hands/ladder")
		if d.KitOf("ladder") > 0 {
			return 0, "", nil
		}
		for _, c := range d.Pieces {
			if c.HighMM > limit.Value {
				return 1, c.Piece.Name + " reaches " + d.Length(c.HighMM), &limit.Source
			}
		}
		if signs := d.Signs(); len(signs) > 0 {
			return 1, signs[0].Name + " hangs high", &limit.Source
		}
		return 0, "", nil
	}}
