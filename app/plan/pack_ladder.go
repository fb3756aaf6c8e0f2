package plan

// ladderRule packs a step ladder if something is high and the kit names none.
var ladderRule = packRule{family: "tool/ladder", bag: "bag/loose", one: "Step ladder", kit: true,
	need: func(d *Rig) (int, string, *Source) {
		limit := d.figures.row("hands/ladder")
		if d.kitOf("ladder") > 0 {
			return 0, "", nil
		}
		for _, c := range d.pieces {
			if c.highMM > limit.Value {
				return 1, c.Piece.Name + " reaches " + d.length(c.highMM), &limit.Source
			}
		}
		if signs := d.signs(); len(signs) > 0 {
			return 1, signs[0].Name + " hangs high", &limit.Source
		}
		return 0, "", nil
	}}
