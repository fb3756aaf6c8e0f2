package plan

import "garlandry/calc/measure"

// cylinderRule packs helium: as many cylinders as the balloons take, see [latex.Cylinder.Fills].
var cylinderRule = packRule{
	family: "helium/cylinder",
	bag:    "bag/helium",
	one:    "Helium cylinder with valve and nozzle",
	kit:    true,
	need: func(d *Rig) (int, string, *Source) {
		litres := d.heliumL()
		if !(litres > 0) {
			return 0, "", nil
		}
		size := d.figures.row("supply/cylinder-l")
		reason := "about " + number(roundTo(litres, 10)) + " litres of gas for " + count(
			d.floating(),
			"balloon",
		) + ", from cylinders of " + number(size.Value) +
			" litres at " + measure.FormatNumber(
			d.figures.get("supply/cylinder-bar"),
			0,
		) + " bar without losses; upright, tied, cap on, windows open in the car"
		return cylinders(d), reason, &size.Source
	},
}

// cylinders is how many the floating balloons take: each a share of one, rounded up once; at least one.
func cylinders(d *Rig) int {
	sum := 0.0
	for _, c := range d.pieces {
		if !c.helium {
			continue
		}
		for _, b := range c.By {
			if lift, known := d.lift(b.SizeIn, b.ToIn); known {
				sum += float64(b.Count) / max(0.5, float64(lift.PerCylinder))
			}
		}
	}
	return max(1, up(sum))
}
