package calc

import (
	"math"

	"garlandry/calc/rig"
)

var lineCalculator = Calculator{
	Name: "line", Title: "Will the line hold", Group: groupHold,
	Purpose: "Whether fishing line, wire or rope carries what hangs on it",
	Inputs: []Input{
		{Key: "weight", Label: "Weight", Kind: KindMass, Min: 1, Max: 1e6, Required: true, Example: "2kg",
			Help: "What hangs, weighed with everything on it."},
		{
			Key:     "points",
			Label:   "Lines",
			Kind:    KindCount,
			Min:     1,
			Max:     20,
			Default: "2",
			Example: "2",
			Help:    "How many lines carry it, at least two. Of three or more only two count: lines are never equally long.",
		},
		{Key: "angle", Label: "Lean", Kind: KindAngle, Min: 0, Max: 80, Default: "0", Example: "30",
			Help: "How far each line leans from straight up, in degrees. Leaning lines pull harder."},
		{Key: "strength", Label: "One line breaks at", Kind: KindForce, Min: 0.1, Max: 1e6, Required: true, Example: "20 lb",
			Help: "Printed on the spool, such as 20 lb."},
		{Key: "knot", Label: "Left by the knot", Kind: KindPart, Min: 0.1, Max: 1, Default: "50 %",
			Example: "50%", Advanced: true, Help: "How much strength a knot leaves: half, to be careful."},
		{Key: "factor", Label: "Safety factor", Kind: KindNumber, Min: 5, Max: 50, Default: "5",
			Example: "10", Advanced: true,
			Help: "How many times stronger the knotted line must be than its pull. 5 is the least here."},
		{Key: "over_people", Label: "Can people be under it", Kind: KindFlag, Default: "no", Example: "yes",
			Help: "If anybody can walk, sit or stand under it, this calculator gives no verdict."},
	},
	Outputs: []Output{
		{"verdict", "Verdict", "holds; do not use; no verdict (people under it)", KindText, true},
		{"per_line_n", "Worst line pulls", "Pull in the worst line", KindForce, true},
		{"allowed_n", "Allowed", "The most one line may pull, with knot and safety factor; 0 over people", KindForce, false},
		{"factor", "Stronger by", "How many times stronger the knotted line is than its pull; 0 over people", KindNumber,
			false},
	},
	Cautions: []string{rig.CautionOverhead, rig.CautionLine, rig.CautionLadder},
	Example: Example{
		Story: "Reading room reopening: the 2 kg sign on two lines of 90 N leaning 60 degrees. Each pulls " +
			"2 × 9.80665 / 2 / cos 60° = 19.6 N. Allowed is 90 × 0.5 / 5 = 9 N",
		Inputs: []Entry{{Key: "weight", Text: "2kg"}, {Key: "points", Text: "2"}, {Key: "angle", Text: "60"},
			{Key: "strength", Text: "90 N"}},
		Expect: []Expectation{{Key: "per_line_n", Value: 19.6133, Within: 1e-4}, {Key: "allowed_n", Value: 9, Within: 1e-9},
			{Key: "verdict", Text: string(rig.VerdictDoNotUse)}},
	},
	Run: runLine,
}

func runLine(v Values, result *Result) error {
	line := rig.Line{
		MassG: v.Number("weight"), Points: v.Count("points"), AngleDeg: v.Number("angle"), StrengthN: v.Number("strength"),
		KnotFactor: v.Number("knot"), SafetyFactor: v.Number("factor"), OverPeople: v.Flag("over_people"),
	}
	h, err := line.Hold()
	if err != nil {
		return v.blame("weight", err)
	}
	result.Notes = h.Notes
	result.figures("per_line_n allowed_n factor",
		h.PerLineN, h.AllowedN, h.Factor)
	result.Outputs["verdict"] = string(h.Verdict)
	v.lineSources(result, line)
	counted := min(line.Points, 2)
	result.step("Weight", "{mass} × gravity", "{force}", line.MassG, rig.WeightN(line.MassG))
	result.step("Worst line", "{force} / {0} / cos {1}°", "{force}", rig.WeightN(line.MassG), float64(counted),
		line.AngleDeg, h.PerLineN)
	if !line.OverPeople {
		result.step("Allowed", "{force} × {2} for the knot / {1}", "{force}", line.StrengthN, line.KnotFactor,
			line.SafetyFactor, h.AllowedN)
		result.step("Stronger by", "{force} / {force}", "{1}", line.StrengthN*line.KnotFactor, h.PerLineN, h.Factor)
	}
	result.Drawing = drawLine(v, line, h)
	return nil
}

// lineSources names the sources of the pull and, with a verdict, of what is allowed.
func (v Values) lineSources(result *Result, line rig.Line) {
	result.use("hang/lean")
	result.useIf(line.Points > 2, "hang/two")
	if !line.OverPeople {
		result.useIf(v.assumed("knot"), "hang/knot")
		result.useIf(v.assumed("factor"), "hang/factor")
	}
}

func drawLine(v Values, line rig.Line, h rig.Hold) *Drawing {
	s := v.sketch()
	const drop, tall = 600.0, 200.0
	lean := drop * math.Tan(line.AngleDeg*math.Pi/180)
	wide := 800.0
	if line.Points == 1 {
		wide, lean = 400, 0
	}
	s.line(RoleGround, -wide/2-lean-100, drop, wide/2+lean+100, drop)
	s.box(RoleLoad, -wide/2, -tall, wide, tall)
	s.text(0, -tall/2, "{mass}", line.MassG)
	if line.Points == 1 {
		s.line(RoleFrame, 0, 0, 0, drop)
	}
	for i := range line.Points {
		if line.Points == 1 {
			break
		}
		share := 2*float64(i)/float64(line.Points-1) - 1
		s.line(RoleFrame, share*wide/2, 0, share*(wide/2+lean), drop)
	}
	s.arrow(RoleLoad, 0, -tall-50, 0, -tall-350, "{force}", rig.WeightN(line.MassG))
	drawing := s.drawing("What hangs on {line|lines}, {force} in the worst: "+string(h.Verdict), float64(line.Points),
		h.PerLineN)
	if drawing != nil {
		drawing.Note = "Only the lean of the lines is to scale."
	}
	return drawing
}
