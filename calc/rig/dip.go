package rig

import (
	"math"
	"slices"
)

// Verdict is the short answer to whether it holds.
type Verdict string

// These are the verdicts. VerdictNone is for loads over people, which need a professional.
const (
	VerdictHolds    Verdict = "holds"
	VerdictVisible  Verdict = "holds, but the dip shows"
	VerdictBallast  Verdict = "needs ballast"
	VerdictDoNotUse Verdict = "do not use"
	VerdictNone     Verdict = "no verdict"
)

// Dips as a part of the span (common practice, no source): one in a hundred is visible, one in fifty is too much.
const (
	VisiblePart = 100.0
	UselessPart = 50.0
)

// DipRule holds the limits; a zero field means the constant of that name.
type DipRule struct{ VisiblePart, UselessPart float64 }

// Dip describes how far a bar sinks under its loads. Downward is positive.
type Dip struct {
	// DipMM is the largest dip anywhere on the bar, AtMM where it is.
	DipMM, AtMM float64
	// ElasticMM and PlayMM are its two parts at that place: bending and joints.
	ElasticMM, PlayMM float64
	// LimitMM is the dip that becomes visible and UselessMM the one that is too much, at AtMM: between the posts by the
	// span, on an overhang by twice its length.
	LimitMM, UselessMM float64
	// SharePct is the dip as a percentage of the visible dip, on the part of the bar (span or overhang) where that is
	// worst, which is at WorstAtMM.
	SharePct, WorstAtMM float64
	// LeftTipMM and RightTipMM are the dips at the ends of the overhangs, negative if they rise.
	LeftTipMM, RightTipMM float64
	// LeftPostN and RightPostN are the loads of the posts; negative if the bar lifts off.
	LeftPostN, RightPostN float64
	// MomentNMM is the largest bending moment, sagging or hogging.
	MomentNMM float64
	// StressMPa is the stress there, 0 if the section is unknown.
	StressMPa float64
	Verdict   Verdict
	// Curve holds points from end to end for drawing.
	Curve []CurvePoint
	// Notes are sentences to show, none if all is well.
	Notes []string
}

// CurvePoint is the dip at one place.
type CurvePoint struct{ AtMM, DipMM float64 }

// Dip returns how far the bar sinks under the loads, with a verdict. It adds the elastic lines of point and spread
// loads and the kink of every joint. The bar's own weight is [Bar.Own]; a bench test includes it in the dip that stays.
// Errors wrap [ErrInput].
func (b Bar) Dip(loads []Load, rule DipRule) (Dip, error) {
	rule = DipRule{orDefault(rule.VisiblePart, VisiblePart), orDefault(rule.UselessPart, UselessPart)}
	if err := firstError(
		b.check(),
		inside(
			limit{"number of loads", float64(len(loads)), 0, MostLoads, ""},
			limit{"part that is too much", rule.UselessPart, 5, 5000, "of a span"},
			limit{"part that shows", rule.VisiblePart, rule.UselessPart, 10_000, "of a span"},
		),
	); err != nil {
		return Dip{}, err
	}
	for _, l := range loads {
		if err := b.checkLoad(l); err != nil {
			return Dip{}, err
		}
	}
	if b.OwnGramsPerMM > 0 {
		loads = append(slices.Clone(loads), b.Own())
	}
	return judge(b.bend(loads), rule), nil
}

func judge(e bent, rule DipRule) Dip {
	b := e.bar
	d := Dip{
		LeftTipMM: e.dipMM(-b.LeftMM), RightTipMM: e.dipMM(b.SpanMM + b.RightMM),
		LeftPostN: e.left, RightPostN: e.right, Verdict: VerdictHolds,
	}
	for i, s := range b.stretches() {
		at, dip := largest(e.dipMM, s.from, s.to, s.steps)
		limit := s.length / rule.VisiblePart
		if i == 0 || dip > d.DipMM {
			d.AtMM, d.DipMM, d.LimitMM, d.UselessMM = at, dip, limit, s.length/rule.UselessPart
		}
		if share := 100 * dip / limit; i == 0 || share > d.SharePct {
			d.SharePct, d.WorstAtMM = share, at
		}
	}
	d.ElasticMM, d.PlayMM = e.elasticMM(d.AtMM), e.playMM(d.AtMM)
	d.MomentNMM = e.largestMoment()
	if b.ModulusMM3 > 0 {
		d.StressMPa = d.MomentNMM / b.ModulusMM3
	}
	d.Curve = e.curve(48)
	d.conclude(b, rule)
	return d
}

// stretch is a part of the bar with its own limit.
type stretch struct {
	from, to, length float64
	steps            int
}

// shortestMM is the shortest overhang with its own verdict. An end cap is shorter.
const shortestMM = 20

func (b Bar) stretches() []stretch {
	list := []stretch{{0, b.SpanMM, b.SpanMM, 200}}
	if b.LeftMM > shortestMM {
		list = append(list, stretch{-b.LeftMM, 0, 2 * b.LeftMM, 40})
	}
	if b.RightMM > shortestMM {
		list = append(list, stretch{b.SpanMM, b.SpanMM + b.RightMM, 2 * b.RightMM, 40})
	}
	return list
}

func (e bent) largestMoment() float64 {
	size := func(x float64) float64 { return math.Abs(e.momentNMM(x)) }
	_, most := largest(size, -e.bar.LeftMM, e.bar.SpanMM+e.bar.RightMM, 200)
	// The moment peaks at posts and point loads, which a grid can miss.
	most = max(most, size(0), size(e.bar.SpanMM))
	for _, f := range e.loads {
		most = max(most, size(f.from), size(f.from+f.width))
	}
	return most
}

func (e bent) curve(steps int) []CurvePoint {
	from, to := -e.bar.LeftMM, e.bar.SpanMM+e.bar.RightMM
	points := make([]CurvePoint, 0, steps+1)
	for i := range steps + 1 {
		x := from + (to-from)*float64(i)/float64(steps)
		points = append(points, CurvePoint{x, e.dipMM(x)})
	}
	return points
}

// conclude sets the verdict and the notes.
func (d *Dip) conclude(b Bar, rule DipRule) {
	if d.SharePct > 100 {
		d.Verdict = VerdictVisible
		add(&d.Notes, "The dip shows: a post in the middle, a stiffer bar or less weight helps.")
	}
	refuse := func(note string) {
		d.Verdict = VerdictDoNotUse
		add(&d.Notes, note)
	}
	if d.SharePct > 100*rule.VisiblePart/rule.UselessPart {
		refuse("It dips too far to trust its joints: shorten the span, add a post or hang less.")
	}
	if d.DipMM > b.SpanMM/10 {
		add(&d.Notes,
			"Beyond a tenth of the span the figure only says that the bar fails.")
	}
	if b.YieldMPa > 0 && d.StressMPa > b.YieldMPa/1.5 {
		refuse("The tube is stressed beyond two thirds of what bends it for good.")
	}
	if (d.WorstAtMM < 0 || d.WorstAtMM > b.SpanMM) && d.SharePct > 100 {
		add(&d.Notes, "The overhang is the worst part: move the post out or the load in.")
	}
	if d.LeftPostN < -1e-9 || d.RightPostN < -1e-9 {
		refuse("The load on an overhang lifts the bar off the other post: move it in or clamp the bar down.")
	}
	if b.TestedMM > 0 && b.SpanMM > b.TestedMM*1.001 {
		add(&d.Notes, "The span is longer than the bench test: test it again at this span before you trust it.")
	}
	if b.Creeps {
		add(&d.Notes,
			"Plastic keeps sinking under a load. After a day, or in warmth, expect about twice this (from memory).")
	}
}
