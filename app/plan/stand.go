package plan

import (
	"garlandry/app/job"
	"garlandry/calc/cluster"
	"garlandry/calc/measure"
	"garlandry/calc/rig"
)

// frameMassG is what a frame weighs itself where nobody weighed it, on the low side; from memory.
const frameMassG = 5000

func ownMassG(k job.Kit) float64 {
	if k.WeightG > 0 {
		return max(k.WeightG, 100)
	}
	return frameMassG
}

// ballastKG is what the feet of a frame need to stand, and whether it may stand at all; 0 for a frame of unknown
// measures. Wind counts outdoors where cloth or panels close the frame; a garland on open bars is left to the number
// of weights for each.
func (d *Rig) ballastKG(k job.Kit) (kg float64, stands bool) {
	if k.WidthMM <= 0 || k.HeightMM <= 0 {
		return 0, true
	}
	return rig.BackdropBallastKG(k.WidthMM, k.HeightMM, ownMassG(k), d.gustMPS(k))
}

// feet is how many weights the feet of one frame get, and whether somebody leaning or the wind asks for more than the
// usual number.
func (d *Rig) feet(k job.Kit) (weights int, more bool) {
	usual := d.figures.row(d.feetKey()).Value
	kg, _ := d.ballastKG(k)
	against := up(kg / d.figures.get("supply/foot-weight-kg"))
	return max(up(usual), against), float64(against) > usual
}

// footWeight writes what one weight for feet weighs; pounds as whole ones, for nobody sells 22.05.
func (d *Rig) footWeight() string {
	kg := d.figures.get("supply/foot-weight-kg")
	if d.units == measure.Imperial {
		return measure.FormatNumber(kg*1000/measure.GramsPerPound, 0) + " lb"
	}
	return measure.FormatMass(1000*kg, d.units)
}

func (d *Rig) feetKey() string {
	if d.outdoors() {
		return "supply/foot-weights-out"
	}
	return "supply/foot-weights"
}

// frameWind says at what gusts a frame outdoors is watched and comes down, with the weights of the pack list on its
// feet and somebody leaning on it; nothing indoors or for unknown measures.
func (d *Rig) frameWind(k job.Kit) string {
	if !d.outdoors() || k.WidthMM <= 0 || k.HeightMM <= 0 {
		return ""
	}
	solidity := 1.0
	if len(d.coversOn(k.ID)) == 0 {
		band := 0.0
		for _, c := range d.pieces {
			if c.Piece.Frame == k.ID && c.joined {
				band += float64(c.LengthMM * cluster.GirthMM(c.Recipe, d.push))
			}
		}
		solidity = min(1, max(leastSolidity, band/float64(k.WidthMM*k.HeightMM)))
	}
	weights, _ := d.feet(k)
	frame := rig.Backdrop(k.WidthMM, k.HeightMM,
		ownMassG(k)+float64(1000*float64(weights)*d.figures.get("supply/foot-weight-kg")))
	frame.Solidity = solidity
	push := rig.Leaning(k.HeightMM)
	push.WindMPS = d.stormMPS()
	tip, err := frame.Tip(push, rig.TipRule{})
	if err != nil {
		return ""
	}
	return "With " + count(weights, "weight") + " of " + d.footWeight() + " on its feet: " + d.windSteps(tip)
}

// leastSolidity is that of a bare frame: its bars alone.
const leastSolidity = 0.1

// stormMPS is the gust that outdoor work is weighed down for; a little wind blows always.
func (d *Rig) stormMPS() float64 { return max(1, d.figures.get("supply/gust")) }

// columnWind says what one column of a piece needs on its foot outdoors, and the wind it comes down at then.
func (d *Rig) columnWind(c *counted) string {
	if !d.outdoors() || c.Clusters == 0 {
		return ""
	}
	foot := d.figures.get("supply/column-foot")
	across := cluster.GirthMM(c.Recipe, d.push)
	column := rig.Frame{WidthMM: across, DepthMM: across, HeightMM: c.Piece.HeightMM,
		MassG: max(100, d.massG(c)/float64(c.fix.count)), BaseDepthMM: foot, BaseWidthMM: foot,
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
	return "With " + measure.FormatBallast(bare.BallastKG, d.units) + " on a foot " + d.length(
		foot,
	) + " across: " + d.windSteps(tip)
}

func (d *Rig) windSteps(tip rig.Tip) string {
	if !(tip.TakeDownMPS > 0) {
		return "it may not be left standing in any wind."
	}
	return "get ready at gusts of " + measure.FormatSpeed(
		tip.WatchMPS,
		d.units,
	) + ", take it down and clear people away at " + measure.FormatSpeed(tip.TakeDownMPS, d.units) +
		". The venue, local codes and a competent person can say less, never more."
}

func (d *Rig) gustMPS(k job.Kit) float64 {
	if d.outdoors() && len(d.coversOn(k.ID)) > 0 {
		return d.figures.get("supply/gust")
	}
	return 0
}

func (d *Rig) gustWords(k job.Kit) string {
	if gust := d.gustMPS(k); gust > 0 {
		return " in gusts of " + measure.FormatSpeed(gust, d.units)
	}
	return ""
}
