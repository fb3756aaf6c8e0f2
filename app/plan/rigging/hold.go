package rigging

import (
	"strconv"

	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/calc/measure"
	"garlandry/calc/rig"
)

// stakeMM is how deep a stake goes in. From memory.
const stakeMM = 300

// leastLines is how many lines to stakes a frame gets on each side: one for each post.
const leastLines = 2

// hold finds the weights and lines with which a stand need not come down before the expected gust. It stops at what is
// worth carrying; the stand's limit then tells, see [Stand.Falls].
func (d *Rig) hold(s *Stand) {
	s.Weights = s.usual
	if !s.Known {
		return
	}
	factor, each := d.Figures.Get("stand/safety"), d.Figures.Get("supply/foot-weight-kg")
	rule := rig.TipRule{OverturnFactor: factor, SlideFactor: factor}
	push := s.push
	push.WindMPS = rig.SafeGustMPS(d.GustMPS())
	need := func(f rig.Frame) int {
		tip, _ := f.Tip(push, rule) // without any push it needs none
		return s.feet * figures.RoundUp(tip.BallastKG/each/float64(s.feet))
	}
	frame, needed := s.frame, need(s.frame)
	if s.lined && needed > s.usual && d.staked() {
		stake, most := d.Figures.Get("stand/stake-n"), int(d.Figures.Get("stand/most-lines"))
		for s.Lines = leastLines; ; s.Lines++ {
			frame = s.frame.WithLines(s.Lines, stake)
			if needed = need(frame); needed <= s.usual || s.Lines >= most {
				break
			}
		}
	}
	most := s.feet * int(d.Figures.Get("stand/most-kg")/each/float64(s.feet))
	s.Weights = max(s.usual, min(needed, most))
	s.More = s.Weights > s.usual
	frame.MassG += float64(1000 * float64(s.Weights) * each)
	s.Tip, _ = frame.Tip(push, rule)
}

// Deeper returns how many weights one stand would take on feet twice as deep, with the same lines.
func (d *Rig) Deeper(s Stand) int {
	deep := s
	deep.frame.BaseDepthMM *= 2
	deep.lined = false
	if s.Lines > 0 {
		deep.frame = deep.frame.WithLines(s.Lines, d.Figures.Get("stand/stake-n"))
	}
	deep.Lines = 0
	d.hold(&deep)
	return deep.Weights
}

// FeetMM returns the depth of a stand's feet.
func (s Stand) FeetMM() float64 { return s.frame.BaseDepthMM }

// Falls reports whether a stand must come down before the expected gust, with all that holds it.
func (d *Rig) Falls(s Stand) bool { return s.Known && d.GustMPS() > s.Tip.TakeDownMPS+1e-9 }

// Feet returns how many weights the feet of one frame of the kit get.
func (d *Rig) Feet(kit string) int {
	for _, s := range d.Stands {
		if s.Kit == kit {
			return s.Weights
		}
	}
	return int(d.Figures.Get(d.FeetKey()))
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

// StandSteps says how the stands of a kit item, or of a piece that names none, are held, and in which gusts they come
// down.
func (d *Rig) StandSteps(kit, piece string) []string {
	var steps []string
	for _, s := range d.Stands {
		if s.Kit == kit && (kit != "" || s.Piece == piece) {
			steps = append(steps, d.steps(s)...)
		}
	}
	return steps
}

func (d *Rig) steps(s Stand) []string {
	each := ""
	if s.Count > 1 {
		each = " of each"
	}
	held := phrase.Count(s.Weights, "weight") + " of " + d.FootWeight()
	evenly := ""
	if s.Weights > 1 {
		evenly = ", spread evenly,"
	}
	steps := []string{"Put " + held + " on the feet" + each + evenly + " before anybody lets go."}
	if held += " on its feet"; s.Weights == 0 {
		steps, held = nil, "nothing on its feet"
	}
	if s.Lines > 0 {
		held += " and " + strconv.Itoa(2*s.Lines) + " lines"
		how := strconv.Itoa(s.Lines) + " in front and as many behind"
		if s.frame.Round {
			how = "all round it"
		}
		steps = append(steps, "Tie "+strconv.Itoa(2*s.Lines)+" lines from the top"+each+" to stakes, "+how+
			", at 45 degrees. Drive each stake in "+d.SmallMM(stakeMM)+", leaning away. Hang tape on the lines so "+
			"that nobody trips.")
	}
	if !d.Outdoors() {
		return steps
	}
	switch {
	case !s.Known:
		return append(steps, "Its measures are not known, so the wind is not counted. Write them in.")
	case s.Guessed:
		steps = append(steps, "Its measures are not in the kit. The wind is counted for "+
			d.Length(d.Figures.Get("stand/frame-wide"))+" by "+d.Length(d.Figures.Get("stand/frame-high"))+
			": write in yours.")
	}
	words := "With " + held + ": do not leave it standing in any wind."
	if s.Tip.TakeDownMPS > 0 {
		words = "With " + held + ": get ready at gusts of " + measure.FormatSpeed(s.Tip.WatchMPS, d.Units) +
			", take it down and clear people away at " + d.limit(s) +
			". The venue, local codes or a competent person may set a lower limit, never a higher one."
	}
	if d.Falls(s) {
		words += " Gusts of " + d.Gust() + " are expected: it may not stand in them."
	}
	return append(steps, words)
}

// limit writes the gust at which a stand comes down.
func (d *Rig) limit(s Stand) string {
	mps := s.Tip.TakeDownMPS
	if d.Falls(s) {
		mps = figures.RoundDownTo(mps, 0.1) // less than the gust in print too
	}
	return measure.FormatSpeed(mps, d.Units)
}

// Limits names the stands that must come down before the expected gust, each with its limit: "Arch (at 8.6 m/s)". It
// returns "" if all may stand. atMost reports whether one of them is held for the strongest gust that any may stand in,
// short whether one would stand longer with more weight.
func (d *Rig) Limits() (text string, atMost, short bool) {
	var names []string
	for _, s := range d.Stands {
		if d.Falls(s) {
			highest := s.Tip.MaxWindMPS >= rig.HighestWindMPS
			atMost, short = atMost || highest, short || !highest
		}
		switch {
		case !d.Falls(s):
		case s.Tip.TakeDownMPS > 0:
			names = append(names, s.Name+" (at "+d.limit(s)+")")
		default:
			names = append(names, s.Name+" (in any wind)")
		}
	}
	return phrase.And(names), atMost, short
}
