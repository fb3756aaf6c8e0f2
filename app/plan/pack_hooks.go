package plan

// hookRule packs removable hooks for bases that no frame carries, where the venue lets them be stuck.
var hookRule = packRule{family: "supply/hooks", bag: "bag/fixings", one: "Removable hooks", unit: "hooks",
	need: func(d *Rig) (int, string, *Source) {
		fixing := d.job.Brief.Fixing
		if fixing != "removable" && fixing != "any" {
			return 0, "", nil
		}
		every := d.figures.row("supply/hook-every")
		lengthMM := 0.0
		for _, c := range d.pieces {
			if c.joined && c.Piece.Frame == "" {
				lengthMM += c.lineMM
			}
		}
		return up(
			lengthMM / every.Value,
		), "one every " + d.length(every.Value) + " of base that no frame carries", &every.Source
	}}
