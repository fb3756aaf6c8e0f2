package plan

import (
	"garlandry/app/job"
	"garlandry/calc/measure"
	"garlandry/calc/rig"
)

// footWeightRule packs weights for the feet of frames, far more outdoors: a number for each, and more where a frame of
// known measures would tip over, see [rig.BackdropBallastKG].
var footWeightRule = packRule{family: "tool/foot-weights", bag: "bag/frames", one: "Weights for feet", unit: "weights", kit: true,
	need: func(d *draft) (int, string, *Source) {
		each := d.figures.row("supply/foot-weights")
		reason := " on a firm floor"
		if d.outdoors() {
			each = d.figures.row("supply/foot-weights-out")
			reason = " outdoors, where wind pushes"
		}
		frames, need, more := 0, 0, ""
		oneKG := d.figures.get("supply/foot-weight-kg")
		for _, k := range d.framesUsed() {
			n := max(1, k.Count)
			frames += n
			least := float64(float64(n) * each.Value)
			kg, _ := d.ballastKG(k)
			if against := float64(n) * float64(up(kg/oneKG)); against > least {
				least = against
				more = "; or as many of " + measure.FormatMass(1000*oneKG, d.units) + " as a frame needs to stand when somebody leans on it" + d.gustWords()
			}
			need += up(least)
		}
		return need, number(each.Value) + " for each of " + count(frames, "frame") + reason + more, &each.Source
	}}

// frameMassG is what a frame weighs itself, on the low side; from memory.
const frameMassG = 5000

// ballastKG is what the feet of a frame need to stand, and whether it may stand at all; 0 for a frame of unknown
// measures. Wind counts outdoors where cloth or panels close the frame; a garland on open bars is left to the number
// of weights for each.
func (d *draft) ballastKG(k job.Kit) (kg float64, stands bool) {
	if k.WidthMM <= 0 || k.HeightMM <= 0 {
		return 0, true
	}
	return rig.BackdropBallastKG(k.WidthMM, k.HeightMM, frameMassG, d.gustMPS())
}

func (d *draft) gustMPS() float64 {
	if d.outdoors() && len(d.covers()) > 0 {
		return d.figures.get("supply/gust")
	}
	return 0
}

func (d *draft) gustWords() string {
	if gust := d.gustMPS(); gust > 0 {
		return " in gusts of " + measure.FormatSpeed(gust, d.units)
	}
	return ""
}
