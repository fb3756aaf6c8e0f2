package rig

import "math"

// Factors of [Frame.Tip].
const (
	// TipFactor is the least ratio of the holding to the pushing effect, against tipping and sliding: the 1.5 of
	// guidance on temporary demountable structures (from memory).
	TipFactor = 1.5
	// WatchPart and TakeDownPart are the parts of the strongest safe wind at which to act: 60 % and 80 %, as in the
	// event guide of a public park (Cardiff council, Bute Park).
	WatchPart, TakeDownPart = 0.6, 0.8
)

// Frame is a stand with a face that catches wind.
type Frame struct {
	// WidthMM and HeightMM are the face that catches wind, DepthMM its thickness, BottomMM the height of its lower edge
	// above the ground.
	WidthMM, HeightMM, DepthMM, BottomMM float64
	// MassG is the total mass, including the weights on its feet.
	MassG float64
	// BaseDepthMM and BaseWidthMM are the distances between the outer edges of
	// the feet, front to back and left to right.
	BaseDepthMM, BaseWidthMM float64
	// ForwardMM is how far the weight is in front of the middle of the base.
	ForwardMM float64
	// Solidity is the share of the face that stops wind, 0.05 to 1; 0 means 1.
	Solidity float64
	// Round is a column: the wind flows round it on every side, see [RoundDrag].
	Round bool
	// LinesN is the level pull towards the front, and as much towards the back, of lines to stakes at LinesAtMM above
	// the ground; a round column has it on all sides. They run at 45 degrees, so they pull down as hard, or harder. See
	// [Frame.WithLines].
	LinesN, LinesAtMM float64
	// Friction is the friction against the ground, see [FindGround].
	Friction float64
}

// Push is the wind and the force on the frame; at least one must be above 0.
type Push struct {
	// WindMPS is the strongest gust, not the mean. Below 0.1 it counts as 0.
	WindMPS float64
	// PushN is a person who leans at PushAtMM above the ground, in any direction.
	PushN, PushAtMM float64
}

// TipRule holds the settings; a zero field means the usual value: [TipFactor] for both factors, [AirDensity],
// [FaceDrag] or [RoundDrag], [HighestWindMPS].
type TipRule struct {
	OverturnFactor, SlideFactor float64
	AirDensity                  float64
	DragCoefficient             float64
	HighestWindMPS              float64
}

// Tip says whether a frame stands.
type Tip struct {
	// OverturnFactor is the righting moment of the weight divided by the tipping moment of the push, over the worst
	// edge; SlideFactor is the same for sliding.
	OverturnFactor, SlideFactor float64
	// WorstEdge is the edge it would tip over: "front", "back", "left" or "right".
	WorstEdge string
	// BallastKG is the mass to add evenly to the feet so that both factors reach the rule, in whole kilograms, rounded
	// up once. It is 0 if none is needed.
	BallastKG float64
	// PressurePa and WindN are the wind's pressure and its force on the face. Drag is the coefficient in it.
	PressurePa, WindN float64
	Drag              Drag
	// MaxWindMPS is the strongest gust in which it stands without ballast, with the factors; WatchMPS and TakeDownMPS
	// are the two thresholds. They are 0 if no wind was given or it may not stand in any.
	MaxWindMPS, WatchMPS, TakeDownMPS float64
	// BallastedMPS is MaxWindMPS with BallastKG added; 0 if no wind was given.
	BallastedMPS float64
	Verdict      Verdict
	// Notes are sentences to show. Outdoors they always name the wind at which to take it down.
	Notes []Note
}

// Note is a sentence with gaps for figures, to be filled in the reader's units: {speed} for m/s, {kilograms} for kg,
// {part} for a share.
type Note struct {
	Text    string
	Figures []float64 // one for each gap, in order
}

// edge is one edge to tip over.
type edge struct {
	name string
	// leverMM is the distance from the weight to the edge.
	leverMM float64
	// windN and windAtMM act towards it.
	windN, windAtMM float64
	// linesN is the level pull of lines away from it and their pull down, heldNMM their moment about it.
	linesN, heldNMM float64
}

// Tip compares what holds the frame with what tips and slides it, for each of its four edges. Errors wrap [ErrInput].
func (f Frame) Tip(p Push, rule TipRule) (Tip, error) {
	f.Solidity = orDefault(f.Solidity, 1)
	rule = rule.filled()
	if err := firstError(f.check(), p.check(), rule.check()); err != nil {
		return Tip{}, err
	}
	if p.WindMPS < 0.1 {
		p.WindMPS = 0
	}
	t := Tip{PressurePa: WindPressurePa(p.WindMPS, rule.AirDensity), Drag: f.drag(f.WidthMM, f.Solidity, rule)}
	t.WindN = t.PressurePa * t.Drag.Coefficient * f.WidthMM * f.HeightMM / 1e6
	edges := f.edges(t.PressurePa, t.WindN, rule)
	weight := WeightN(f.MassG)

	t.OverturnFactor, t.SlideFactor = math.Inf(1), math.Inf(1)
	ballastN := 0.0
	for _, e := range edges {
		tipping := float64(e.windN*e.windAtMM) + float64(p.PushN*p.PushAtMM)
		if factor := (float64(weight*e.leverMM) + e.heldNMM) / tipping; tipping > 0 && factor < t.OverturnFactor {
			t.OverturnFactor, t.WorstEdge = factor, e.name
		}
		sliding := e.windN + p.PushN
		if sliding > 0 {
			t.SlideFactor = min(t.SlideFactor, (float64(f.Friction*(weight+e.linesN))+e.linesN)/sliding)
		}
		ballastN = max(ballastN,
			(float64(rule.OverturnFactor*tipping)-float64(weight*e.leverMM)-e.heldNMM)/f.half(e.name),
			(float64(rule.SlideFactor*sliding)-e.linesN)/f.Friction-weight-e.linesN)
	}
	t.BallastKG = max(0, math.Ceil(ballastN/gravity-1e-6))
	if p.WindMPS > 0 {
		t.MaxWindMPS, t.BallastedMPS = rule.HighestWindMPS, rule.HighestWindMPS
		for _, e := range edges {
			t.MaxWindMPS = min(t.MaxWindMPS, e.strongestWind(f, p, rule, 0))
			t.BallastedMPS = min(t.BallastedMPS, e.strongestWind(f, p, rule, t.BallastKG*gravity))
		}
		t.WatchMPS, t.TakeDownMPS = WatchPart*t.MaxWindMPS, TakeDownPart*t.MaxWindMPS
	}
	t.conclude(p, rule)
	return t, nil
}

// drag returns the drag of a face of that width.
func (f Frame) drag(widthMM, solidity float64, rule TipRule) Drag {
	switch {
	case rule.DragCoefficient > 0:
		return Drag{Coefficient: rule.DragCoefficient}
	case f.Round:
		return Drag{RoundDrag * solidity, CodeRound}
	}
	return FaceDrag(solidity, widthMM, f.HeightMM, f.BottomMM)
}

func (f Frame) edges(pressurePa, frontN float64, rule TipRule) []edge {
	at := f.BottomMM + float64((0.5+HighPush)*f.HeightMM)
	sideN := 0.0
	if f.DepthMM > 0 {
		sideN = pressurePa * f.drag(f.DepthMM, 1, rule).Coefficient * f.DepthMM * f.HeightMM / 1e6
	}
	depth, width := f.BaseDepthMM/2, f.BaseWidthMM/2
	held := f.LinesN * (f.LinesAtMM + depth)
	asideN, aside := 0.0, 0.0
	if f.Round {
		asideN, aside = f.LinesN, f.LinesN*(f.LinesAtMM+width)
	}
	return []edge{
		{"front", depth - f.ForwardMM, frontN, at, f.LinesN, held},
		{"back", depth + f.ForwardMM, frontN, at, f.LinesN, held},
		{"left", width, sideN, at, asideN, aside},
		{"right", width, sideN, at, asideN, aside},
	}
}

func (f Frame) half(edgeName string) float64 {
	if edgeName == "front" || edgeName == "back" {
		return f.BaseDepthMM / 2
	}
	return f.BaseWidthMM / 2
}

// strongestWind returns the wind in m/s at which the frame just meets the rule with this ballast, spread evenly on the
// base. It is +Inf if wind has no effect towards this edge.
func (e edge) strongestWind(f Frame, p Push, rule TipRule, ballastN float64) float64 {
	if e.windN == 0 {
		return math.Inf(1)
	}
	weight := WeightN(f.MassG)
	perSquare := e.windN / (p.WindMPS * p.WindMPS)
	rights := float64(weight*e.leverMM) + float64(ballastN*f.half(e.name)) + e.heldNMM
	tip := (rights/rule.OverturnFactor - float64(p.PushN*p.PushAtMM)) / (perSquare * e.windAtMM)
	slide := ((float64(f.Friction*(weight+ballastN+e.linesN))+e.linesN)/rule.SlideFactor - p.PushN) / perSquare
	return math.Sqrt(max(0, min(tip, slide)))
}

func (t *Tip) conclude(p Push, rule TipRule) {
	t.Verdict = VerdictHolds
	switch {
	case p.WindMPS > rule.HighestWindMPS:
		t.Verdict = VerdictDoNotUse
		t.note("No light décor stands in gusts over {speed}, whatever it weighs.", rule.HighestWindMPS)
	case t.BallastKG > 0:
		t.Verdict = VerdictBallast
		t.note("Add at least {kilograms}, spread over the feet, before anybody lets go of it.", t.BallastKG)
		if t.WindN > 0 && t.Drag.Code != CodeRound {
			t.note("Spread it evenly: a gust off the middle puts {part} of its push on one of two feet.", 0.5+OffCentre)
		}
	}
	if p.WindMPS == 0 {
		return
	}
	t.note(
		"Counted with gusts of {speed}. A forecast or Beaufort force is a mean wind; its gusts are half as strong again.",
		p.WindMPS,
	)
	if t.MaxWindMPS > 0 {
		t.note(
			"As it stands now: get ready at gusts of {speed}, take it down and clear people away at {speed}. The venue, "+
				"local codes and a competent person can say less, never more.",
			t.WatchMPS,
			t.TakeDownMPS,
		)
	} else {
		t.note("As it stands now it is not safe in any wind: take it down.")
	}
	if t.Verdict == VerdictBallast {
		t.note(
			"With the {kilograms} added: get ready at gusts of {speed}, take it down at {speed}. The venue, local codes and "+
				"a competent person can say less, never more.",
			t.BallastKG,
			WatchPart*t.BallastedMPS,
			TakeDownPart*t.BallastedMPS,
		)
	}
}

func (t *Tip) note(text string, figures ...float64) {
	t.Notes = append(t.Notes, Note{text, figures})
}
