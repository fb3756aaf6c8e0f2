package calc

import (
	"math"
	"strings"

	"garlandry/calc/measure"
	"garlandry/calc/rig"
)

func tipCalculator() Calculator {
	var grounds []string
	for _, g := range rig.Grounds() {
		grounds = append(grounds, g.Name)
	}
	long := func(key, label, help, example string, least, most float64) Input {
		return Input{Key: key, Label: label, Help: help, Kind: KindLength, Min: least, Max: most, Example: example}
	}
	needed := func(in Input) Input { in.Required = true; return in }
	advanced := func(in Input) Input { in.Advanced = true; return in }
	return Calculator{
		Name: "tip", Title: "Will it tip or slide", Group: groupHold,
		Purpose: "How much weight a stand needs on its feet against wind or somebody leaning on it",
		Inputs: []Input{
			needed(long("width", "Width", "Of the face that catches wind, with its balloons.", "2m", 50, 20_000)),
			needed(long("height", "Height", "Of the face, from its lower to its upper edge.", "2.2m", 50, 10_000)),
			{Key: "weight", Label: "Weight", Kind: KindMass, Min: 100, Max: 5e6, Required: true, Example: "25kg",
				Help: "All of it, with the weights that are on its feet already."},
			needed(long("base_depth", "Feet, front to back", "Between the outer edges of the feet, from front to back.", "60cm", 20, 10_000)),
			long("base_width", "Feet, left to right", "Between the outer edges of the feet, from left to right. Left out, the width of the face.", "2m", 20, 20_000),
			{Key: "solidity", Label: "How closed it is", Kind: KindPart, Min: 0.05, Max: 1, Default: "100 %", Example: "60%",
				Help: "Share of the face that stops wind: 100 % for cloth, panels or a full wall, 30 % for an open frame with ribbons."},
			{Key: "wind", Label: "Wind", Kind: KindSpeed, Min: 0, Max: 40, Example: "8 m/s",
				Help: "The strongest gust to expect: 8 m/s, 30 km/h, 18 mph. A Beaufort force (Bft 4) is a mean wind; its gusts are worked out. Give the wind or a push."},
			{Key: "push", Label: "Somebody leans", Kind: KindForce, Min: 0, Max: 5000, Example: "100 N",
				Help: "A push against it. A person leaning is about 100 N, a child hanging on it more."},
			long("push_at", "Push at height", "Height above the ground of the push.", "1m", 0, 10_000),
			{Key: "ground", Label: "Feet and ground", Kind: KindChoice, Choices: grounds, Default: "rubber feet on a dry floor", Example: "carpet",
				Help: "What stands on what. Wet, dusty or polished it slides sooner: choose a worse one."},
			advanced(long("bottom", "Lower edge above ground", "How far the lower edge of the face is off the ground.", "0.2m", 0, 10_000)),
			advanced(long("depth", "Thickness", "Of the face from front to back; matters for wind from the side.", "40cm", 0, 5000)),
			advanced(long("forward", "Weight forward", "How far the weight sits in front of the middle of the feet: balloons on the front of a frame.", "10cm", 0, 5000)),
			{Key: "factor", Label: "Safety factor", Kind: KindNumber, Min: 1.5, Max: 10, Default: "1.5", Example: "2", Advanced: true,
				Help: "How many times more must hold than pushes. 1.5 is usual; not less."},
		},
		Outputs: []Output{
			{"verdict", "Verdict", "holds; needs ballast; do not use", KindText, true},
			{"ballast_kg", "Add on the feet", "Weight to add, spread evenly, rounded up to whole kilograms; 0 when none", KindKilograms, true},
			{"overturn_factor", "Against tipping", "How many times more holds than tips; 1.5 is wanted", KindNumber, false},
			{"slide_factor", "Against sliding", "How many times more holds than slides; 1.5 is wanted", KindNumber, false},
			{"wind_n", "Wind pushes", "Force of the wind on the face", KindForce, false},
			{"take_down_mps", "Take it down at", "Gust at which to take it down; 0 when no wind was given or it may not stand in any", KindSpeed, false},
			{"watch_mps", "Watch from", "Gust from which somebody stands by", KindSpeed, false},
			{"worst_edge", "Tips over", "The edge it would go over", KindText, false},
		},
		Cautions: rig.TipCautions(),
		Sources: []Source{
			{"Wind pressure ½ ρ v², ρ = 1.25 kg/m³: EN 1991-1-4 clause 4.5", MarkPublished},
			{"Drag of a flat plate 1.28: NASA Glenn Research Center, Shape effects on drag", MarkPublished},
			{"Friction: Pallett, Gorst, Clark, Thomas, Concrete 36(6) 2002, and EN 12812, quoted by The Concrete Society", MarkPublished},
			{"Act at 60 % and 80 % of the strongest wind: event guide of a public park (Cardiff council)", MarkPublished},
			{"Factor 1.5 against tipping and sliding: guidance on temporary demountable structures", MarkFromMemory},
			{"Gusts half as strong again as the mean wind", MarkFromMemory},
		},
		Example: Example{
			Story:  "A closed backdrop 2 m square, its middle 1.25 m up, in 10 m/s, feet 1 m deep: ½ × 1.25 × 10² × 1.28 × 4 = 320 N at 1.25 m need 320 × 1.25 × 1.5 / 0.5 / 9.81 = 122 kg in all; it is 20 kg now",
			Inputs: []Entry{{Key: "width", Text: "2m"}, {Key: "height", Text: "2m"}, {Key: "bottom", Text: "0.25m"}, {Key: "weight", Text: "20kg"}, {Key: "base_depth", Text: "1m"}, {Key: "wind", Text: "10 m/s"}, {Key: "ground", Text: "wood feet on concrete"}},
			Expect: []Expectation{{Key: "wind_n", Value: 320, Within: 0.01}, {Key: "ballast_kg", Value: 103}, {Key: "overturn_factor", Value: 0.245, Within: 0.001}},
		},
		Run: runTip,
	}
}

func runTip(v Values) (Result, error) {
	ground, _ := rig.FindGround(v.Text("ground"))
	frame := rig.Frame{
		WidthMM: v.Number("width"), HeightMM: v.Number("height"), DepthMM: v.Number("depth"), BottomMM: v.Number("bottom"),
		MassG: v.Number("weight"), BaseDepthMM: v.Number("base_depth"), BaseWidthMM: v.Number("base_width"),
		ForwardMM: v.Number("forward"), Solidity: v.Number("solidity"), Friction: ground.Friction,
	}
	if !v.Has("base_width") {
		frame.BaseWidthMM = frame.WidthMM
	}
	if frame.ForwardMM > 0.49*frame.BaseDepthMM {
		return Result{}, v.refuse("forward", "the weight would sit in front of the feet: it falls by itself", nil)
	}
	push, err := v.pushOnFrame()
	if err != nil {
		return Result{}, err
	}
	factor := v.Number("factor")
	t, err := frame.Tip(push, rig.TipRule{OverturnFactor: factor, SlideFactor: factor})
	if err != nil {
		return Result{}, v.refuse("wind", err.Error(), err)
	}
	result := Result{Outputs: map[string]any{}, Notes: t.Notes}
	result.figures("overturn_factor slide_factor ballast_kg wind_n take_down_mps watch_mps",
		t.OverturnFactor, t.SlideFactor, t.BallastKG, t.WindN, t.TakeDownMPS, t.WatchMPS)
	result.Outputs["verdict"] = string(t.Verdict)
	result.Outputs["worst_edge"] = t.WorstEdge
	v.tipWorking(&result, frame, push, t, ground)
	result.Drawing = drawTip(v, frame, push, t)
	return result, nil
}

// pushOnFrame reads the wind and the push; Beaufort forces become gusts.
func (v Values) pushOnFrame() (rig.Push, error) {
	if !v.Has("wind") && !v.Has("push") {
		return rig.Push{}, v.needs("wind", "give the wind, or a push (push and push_at)")
	}
	push := rig.Push{WindMPS: v.Number("wind"), PushN: v.Number("push"), PushAtMM: v.Number("push_at")}
	if v.Has("push") && push.PushN > 0 && !v.Has("push_at") {
		return push, v.needs("push_at", "a push needs the height it acts at")
	}
	if v.beaufort("wind") {
		push.WindMPS = rig.GustMPS(push.WindMPS)
	}
	if push.WindMPS < 0.1 && push.PushN < 0.1 {
		return push, v.refuse("wind", "neither wind nor push: nothing acts on it", nil)
	}
	return push, nil
}

// beaufort reports whether the input was typed as a Beaufort force, which is a
// mean wind and not a gust.
func (v Values) beaufort(key string) bool {
	typed := strings.ToLower(v.given.typed[key])
	return strings.Contains(typed, "b") || strings.Contains(typed, "force")
}

func (v Values) tipWorking(result *Result, frame rig.Frame, push rig.Push, t rig.Tip, ground rig.Ground) {
	if push.WindMPS > 0 {
		if v.beaufort("wind") {
			result.step("Gusts", "Beaufort is a mean wind: upper edge "+measure.FormatSpeed(v.Number("wind"), v.System())+" × "+number(rig.GustFactor, 1), measure.FormatSpeed(push.WindMPS, v.System()))
		}
		result.step("Wind presses", "½ × 1.25 × ("+number(push.WindMPS, 1)+" m/s)²", measure.FormatNumber(t.PressurePa, 1)+" Pa")
		result.step("Wind pushes", "pressure × "+v.length(frame.WidthMM)+" × "+v.length(frame.HeightMM)+" × drag "+number(rig.Drag(frame.Solidity), 2), number(t.WindN, 0)+" N")
	}
	if push.PushN > 0 {
		result.step("Somebody pushes", "at "+v.length(push.PushAtMM), number(push.PushN, 0)+" N")
	}
	result.step("Weight holds", number(frame.MassG/1000, 2)+" kg × 9.81", number(rig.WeightN(frame.MassG), 0)+" N")
	result.step("Against tipping", "weight × half the feet / push × height, over the "+t.WorstEdge+" edge", number(t.OverturnFactor, 2))
	result.step("Against sliding", "weight × "+number(ground.Friction, 2)+" ("+ground.Name+") / push", number(t.SlideFactor, 2))
	result.step("Add", "until both are "+number(v.Number("factor"), 1)+", rounded up", number(t.BallastKG, 0)+" kg")
}

// drawTip shows the frame from the side with wind, feet and the ballast.
func drawTip(v Values, f rig.Frame, push rig.Push, t rig.Tip) *Drawing {
	var s sketch
	top := f.BottomMM + f.HeightMM
	thick := math.Max(f.DepthMM, top*0.03)
	half := f.BaseDepthMM / 2
	s.line(RoleGround, at(-half-top*0.4, 0), at(half+top*0.4, 0))
	s.line(RoleFrame, at(-half, 0), at(half, 0))
	s.line(RoleFrame, at(0, 0), at(0, f.BottomMM))
	s.box(RoleBox, -thick/2+f.ForwardMM, f.BottomMM, thick, f.HeightMM)
	if push.WindMPS > 0 {
		middle := f.BottomMM + f.HeightMM/2
		for _, y := range []float64{f.BottomMM + f.HeightMM*0.2, middle, f.BottomMM + f.HeightMM*0.8} {
			label := ""
			if y == middle {
				label = number(t.WindN, 0) + " N"
			}
			s.arrow(RoleWind, at(-thick/2-top*0.35, y), at(-thick/2-top*0.03, y), label)
		}
	}
	if push.PushN > 0 {
		s.arrow(RoleWind, at(thick/2+top*0.35, push.PushAtMM), at(thick/2+top*0.03, push.PushAtMM), number(push.PushN, 0)+" N")
	}
	if t.BallastKG > 0 {
		s.box(RoleLoad, -half, 0, half*0.3, top*0.05)
		s.box(RoleLoad, half*0.7, 0, half*0.3, top*0.05)
		s.text(at(half*0.85, top*0.1), "+"+number(t.BallastKG, 0)+" kg in all")
	}
	s.dimension(at(-half, -top*0.08), at(half, -top*0.08), v.length(f.BaseDepthMM))
	s.dimension(at(half+top*0.2, 0), at(half+top*0.2, top), v.length(top))
	return s.drawing("The stand from the side: " + string(t.Verdict))
}
