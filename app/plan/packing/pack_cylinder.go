package packing

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/rigging"
	"garlandry/calc/measure"
)

// cylinderRule packs helium: as many cylinders as the balloons take, see [latex.Cylinder.Fills].
var cylinderRule = rule{
	family: "helium/cylinder",
	bag:    "bag/helium",
	one:    "Helium cylinder with valve and nozzle",
	kit:    true,
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		litres := d.HeliumL()
		if !(litres > 0) {
			return 0, "", nil
		}
		size := d.Figures.Row("supply/cylinder-l")
		reason := "about " + phrase.Number(figures.RoundUpTo(litres, 10)) + " litres of gas for " + phrase.Count(
			d.Floating(),
			"balloon",
		) + ", from cylinders of " + phrase.Number(size.Value) +
			" litres at " + measure.FormatNumber(
			d.Figures.Get("supply/cylinder-bar"),
			0,
		) + " bar without losses; upright, tied, cap on, windows open in the car"
		return cylinders(d), reason, &size.Source
	},
}

// cylinders is how many the floating balloons take: each a share of one, rounded up once; at least one.
func cylinders(d *rigging.Rig) int {
	sum := 0.0
	for _, c := range d.Pieces {
		if !c.Helium {
			continue
		}
		for _, b := range c.By {
			if lift, known := d.Lift(b.SizeIn, b.ToIn); known {
				sum += float64(b.Count) / max(0.5, float64(lift.PerCylinder))
			}
		}
	}
	return max(1, figures.RoundUp(sum))
}
