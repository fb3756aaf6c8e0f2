package packing

import (
	"cmp"
	"slices"

	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/rigging"
	"garlandry/calc/latex"
	"garlandry/calc/measure"
	"garlandry/calc/stable"
)

// cylinderNeed packs the helium cylinders that the balloons take beyond those of the kit, see [latex.Cylinder.Fills].
func cylinderNeed(d *rigging.Rig) (int, string, *figures.Source) {
	litres := d.HeliumL()
	if !(litres > 0) {
		return 0, "", nil
	}
	reason := "about " + volumeText(figures.RoundUpTo(litres, 10), d.Units) + " of gas for " +
		phrase.Count(d.Floating(), "balloon")
	if d.KitOf("cylinder") > 0 {
		reason += ", beyond what your own cylinders hold"
	}
	size := d.Figures.Row("supply/cylinder-l")
	reason += ", from cylinders of " + cylinderText(d) + " without losses; keep upright, tied, cap on"
	if d.Travels() {
		reason += ", windows open in the car"
	}
	return moreCylinders(d), reason, &size.Source
}

// cylinders returns how many cylinders come along: those of the kit, and what the balloons take beyond.
func cylinders(d *rigging.Rig) int { return d.KitOf("cylinder") + moreCylinders(d) }

// moreCylinders returns how many cylinders the floating balloons take beyond those of the kit, the largest of which are
// emptied first. A cylinder of the kit whose gas is not known is one of the figures.
func moreCylinders(d *rigging.Rig) int {
	own := slices.DeleteFunc(slices.Clone(d.Job.Kit), func(k job.Kit) bool { return k.Kind != "cylinder" })
	stable.Sort(own, func(a, b job.Kit) int { return cmp.Compare(b.GasL, a.GasL) })
	left := 1.0 // share of the balloons to fill
	for _, k := range own {
		cylinder := d.Cylinder()
		if k.GasL > 0 {
			cylinder = latex.Cylinder{RatedL: k.GasL}
		}
		if take := cylindersFor(d, cylinder); take > 0 {
			left -= float64(max(0, k.Count)) / take
		}
	}
	return figures.RoundUp(max(0, left) * cylindersFor(d, d.Cylinder()))
}

// cylindersFor returns how many such cylinders fill all floating balloons: their shares added up, not rounded.
func cylindersFor(d *rigging.Rig, cylinder latex.Cylinder) float64 {
	sum := 0.0
	for _, c := range d.Pieces {
		if !c.Helium {
			continue
		}
		for _, b := range c.Own() {
			if lift, known := d.LiftFrom(b.SizeIn, b.ToIn, cylinder); known {
				sum += float64(b.Count) / max(0.5, float64(lift.PerCylinder))
			}
		}
	}
	return sum
}

// cylinderText describes a cylinder of the figures as it is sold: by its gas in feet, by size and pressure in metres.
func cylinderText(d *rigging.Rig) string {
	c := d.Cylinder()
	if d.Units == measure.Imperial {
		if gas, err := c.Contents(d.Venue()); err == nil {
			return volumeText(gas.UsableL, d.Units)
		}
	}
	return phrase.Number(c.Litres) + " litres at " + measure.FormatNumber(c.GaugeBar, 0) + " bar"
}

// volumeText writes a volume in whole litres or cubic feet.
func volumeText(litres float64, units measure.System) string {
	if units == measure.Imperial {
		return measure.FormatNumber(litres/measure.LitresPerCuFt, 0) + " cu ft"
	}
	return phrase.Number(litres) + " litres"
}
