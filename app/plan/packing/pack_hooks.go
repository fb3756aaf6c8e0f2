package packing

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/rigging"
)

// hookRule packs removable hooks for bases that no frame carries, where the venue lets them be stuck.
var hookRule = rule{family: "supply/hooks", bag: "bag/fixings", one: "Removable hooks", unit: "hooks",
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		fixing := d.Job.Brief.Fixing
		if fixing != "removable" && fixing != "any" {
			return 0, "", nil
		}
		every := d.Figures.Row("supply/hook-every")
		lengthMM := 0.0
		for _, c := range d.Pieces {
			if c.Joined && c.Piece.Frame == "" {
				lengthMM += c.LineMM
			}
		}
		return figures.RoundUp(
			lengthMM / every.Value,
		), "one every " + d.Length(every.Value) + " of base that no frame carries", &every.Source
	}}
