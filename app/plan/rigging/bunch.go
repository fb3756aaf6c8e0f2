package rigging

import (
	"garlandry/app/plan/count"
	"garlandry/calc/cluster"
	"garlandry/calc/measure"
	"garlandry/calc/rig"
)

// Bunch computes what holds one bunch of a piece's floating balloons in the strongest gust to expect. It reports false
// if nothing in it floats.
func (d *Rig) Bunch(c *count.Counted) (rig.BunchHold, bool) {
	if !c.Helium || c.Make.Count == 0 {
		return rig.BunchHold{}, false
	}
	liftG, area := 0.0, 0.0
	for _, b := range c.Own() {
		if lift, known := d.Lift(b.SizeIn, b.ToIn); known {
			liftG += float64(max(0, lift.NetG) * float64(b.Count))
		}
		area += float64(float64(b.Count) * rig.DiscM2(b.ToIn*measure.MMPerInch))
	}
	one := rig.Bunch{LiftN: rig.WeightN(liftG / float64(c.Make.Count)), AreaM2: area / float64(c.Make.Count),
		Friction: d.friction()}
	return one.Hold(d.GustMPS(), 0), liftG > 0
}

// PushN returns the push of the strongest gust to expect on a base or wall that names no frame, by the drag of a
// part-open face; 0 for others and indoors.
func (d *Rig) PushN(c *count.Counted) float64 {
	if _, known := d.Job.KitItem(c.Piece.Frame); known || c.Balloons == 0 || c.Kind.Stand != "" {
		return 0
	}
	area := 0.0
	switch {
	case c.Kind.Covers:
		area = float64(c.Piece.WidthMM * c.Piece.HeightMM)
	case c.Joined:
		size := cluster.Measure(c.Recipe, d.Push)
		area = float64(c.LengthMM * size.WidthMM)
	}
	return rig.WindPressurePa(d.GustMPS(), 0) * rig.SignDrag * area / 1e6
}
