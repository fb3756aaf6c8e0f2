package rigging

import (
	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/calc/cluster"
	"garlandry/calc/measure"
	"garlandry/calc/rig"
)

// frameMassG is the assumed weight of a frame that was not weighed, on the low side. From memory, no source.
const frameMassG = 5000

// ownMassG returns the weight of a frame.
func ownMassG(k job.Kit) float64 {
	if k.WeightG > 0 {
		return max(k.WeightG, 100)
	}
	return frameMassG
}

// BallastKG returns the weight that the feet of a frame need and whether it can stand at all. It returns 0 for a frame
// of unknown measures. Wind counts outdoors if cloth or panels close the frame; the usual weights cover open bars.
func (d *Rig) BallastKG(k job.Kit) (kg float64, stands bool) {
	if k.WidthMM <= 0 || k.HeightMM <= 0 {
		return 0, true
	}
	return rig.BackdropBallastKG(k.WidthMM, k.HeightMM, ownMassG(k), d.gustMPS(k))
}

// Feet returns how many weights the feet of one frame get, and whether that is more than usual because of wind or
// somebody leaning on it.
func (d *Rig) Feet(k job.Kit) (weights int, more bool) {
	usual := d.Figures.Row(d.FeetKey()).Value
	kg, _ := d.BallastKG(k)
	needed := figures.RoundUp(kg / d.Figures.Get("supply/foot-weight-kg"))
	return max(figures.RoundUp(usual), needed), float64(needed) > usual
}

// FootWeight writes the mass of one foot weight. Pounds are whole numbers, as they are sold.
func (d *Rig) FootWeight() string {
	kg := d.Figures.Get("supply/foot-weight-kg")
	if d.Units == measure.Imperial {
		return measure.FormatNumber(kg*1000/measure.GramsPerPound, 0) + " lb"
	}
	return measure.FormatMass(1000*kg, d.Units)
}

// FeetKey returns the key of the figure for the usual number of foot weights.
func (d *Rig) FeetKey() string {
	if d.Outdoors() {
		return "supply/foot-weights-out"
	}
	return "supply/foot-weights"
}

// FrameWind says at what gusts to watch a frame outdoors and to take it down. It assumes the weights of the pack list
// on its feet and somebody leaning on it. It returns "" indoors and for unknown measures.
func (d *Rig) FrameWind(k job.Kit) string {
	if !d.Outdoors() || k.WidthMM <= 0 || k.HeightMM <= 0 {
		return ""
	}
	solidity := 1.0
	if len(d.CoversOn(k.ID)) == 0 {
		band := 0.0
		for _, c := range d.Pieces {
			if c.Piece.Frame == k.ID && c.Joined {
				band += float64(c.LengthMM * cluster.GirthMM(c.Recipe, d.Push))
			}
		}
		solidity = min(1, max(leastSolidity, band/float64(k.WidthMM*k.HeightMM)))
	}
	weights, _ := d.Feet(k)
	frame := rig.Backdrop(k.WidthMM, k.HeightMM,
		ownMassG(k)+float64(1000*float64(weights)*d.Figures.Get("supply/foot-weight-kg")))
	frame.Solidity = solidity
	push := rig.Leaning(k.HeightMM)
	push.WindMPS = d.stormMPS()
	tip, err := frame.Tip(push, rig.TipRule{})
	if err != nil {
		return ""
	}
	return "With " + phrase.Count(weights, "weight") + " of " + d.FootWeight() + " on its feet: " + d.windSteps(tip)
}

// leastSolidity is the solidity of a bare frame.
const leastSolidity = 0.1

// stormMPS returns the gust that outdoor work is weighed down for, at least 1 m/s.
func (d *Rig) stormMPS() float64 { return max(1, d.Figures.Get("supply/gust")) }

// ColumnWind says what weight one column needs on its foot outdoors and at what wind to take it down.
func (d *Rig) ColumnWind(c *count.Counted) string {
	if !d.Outdoors() || c.Clusters == 0 {
		return ""
	}
	foot := d.Figures.Get("supply/column-foot")
	across := cluster.GirthMM(c.Recipe, d.Push)
	column := rig.Frame{WidthMM: across, DepthMM: across, HeightMM: c.Piece.HeightMM,
		MassG: max(100, d.MassG(c)/float64(c.Fix.Count)), BaseDepthMM: foot, BaseWidthMM: foot,
		Friction: rig.Backdrop(0, 0, 0).Friction}
	push := rig.Push{WindMPS: d.stormMPS()}
	bare, err := column.Tip(push, rig.TipRule{})
	if err != nil {
		return ""
	}
	column.MassG += float64(1000 * bare.BallastKG)
	tip, err := column.Tip(push, rig.TipRule{})
	if err != nil {
		return ""
	}
	return "With " + measure.FormatBallast(bare.BallastKG, d.Units) + " on a foot " + d.Length(foot) + " across: " +
		d.windSteps(tip)
}

// windSteps says at what gusts to get ready and to take something down.
func (d *Rig) windSteps(tip rig.Tip) string {
	if !(tip.TakeDownMPS > 0) {
		return "do not leave it standing in any wind."
	}
	return "get ready at gusts of " + measure.FormatSpeed(tip.WatchMPS, d.Units) +
		", take it down and clear people away at " + measure.FormatSpeed(tip.TakeDownMPS, d.Units) +
		". The venue, local codes or a competent person may set a lower limit, never a higher one."
}

// gustMPS returns the gust that counts for a frame, 0 if none does.
func (d *Rig) gustMPS(k job.Kit) float64 {
	if d.Outdoors() && len(d.CoversOn(k.ID)) > 0 {
		return d.Figures.Get("supply/gust")
	}
	return 0
}

// GustWords names the gust that counts for a frame, "" if none does.
func (d *Rig) GustWords(k job.Kit) string {
	if gust := d.gustMPS(k); gust > 0 {
		return " in gusts of " + measure.FormatSpeed(gust, d.Units)
	}
	return ""
}
