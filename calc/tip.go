package calc

import (
	"math"
	"strings"

	"garlandry/calc/rig"
)

var tipCalculator = Calculator{
	Name: "tip", Title: "Will it tip or slide", Group: groupHold,
	Purpose: "How much weight a stand needs on its feet against wind or somebody leaning on it",
	Inputs: []Input{
		{Key: "width", Label: "Width", Kind: KindLength, Min: 50, Max: 20_000, Required: true, Example: "2m",
			Help: "Of the face that catches wind, with its balloons."},
		{Key: "height", Label: "Height", Kind: KindLength, Min: 50, Max: 10_000, Required: true, Example: "2.2m",
			Help: "Of the face, from its lower to its upper edge."},
		{Key: "weight", Label: "Weight", Kind: KindMass, Min: 100, Max: 5e6, Required: true, Example: "25kg",
			Help: "All of it, with the weights that are on its feet already."},
		{Key: "base_depth", Label: "Feet, front to back", Kind: KindLength, Min: 20, Max: 10_000,
			Required: true, Example: "60cm", Help: "Between the outer edges of the feet, from front to back."},
		{Key: "base_width", Label: "Feet, left to right", Kind: KindLength, Min: 20, Max: 20_000, Example: "2m",
			Help: "Between the outer edges of the feet, from left to right. Left out, the width of the face."},
		{
			Key:     "solidity",
			Label:   "How closed it is",
			Kind:    KindPart,
			Min:     0.05,
			Max:     1,
			Default: "100 %",
			Example: "60%",
			Help: "Share of the face that stops wind: 100 % for cloth, panels or a full wall, 30 % for an open frame " +
				"with ribbons.",
		},
		{
			Key:     "wind",
			Label:   "Wind",
			Kind:    KindSpeed,
			Min:     0,
			Max:     40,
			Example: "8 m/s",
			Help: "The strongest gust to expect: 8 m/s. A Beaufort force (Bft 4) is a mean wind; gusts " +
				"are added. Give the wind or a push.",
		},
		{Key: "push", Label: "Somebody leans", Kind: KindForce, Min: 0, Max: 5000, Example: "20 lb",
			Help: "How hard. A person leaning is about 10 kg, a child hanging on it more."},
		{Key: "push_at", Label: "Push at height", Kind: KindLength, Min: 10, Max: 10_000, Example: "1m",
			Help: "Height above the ground of the push."},
		{
			Key:     "ground",
			Label:   "Feet and ground",
			Kind:    KindChoice,
			Choices: rig.GroundNames(),
			Default: "rubber feet on a dry floor",
			Example: "carpet",
			Help:    "If it is wet, dusty or polished, it slides sooner: choose a worse one.",
		},
		{Key: "bottom", Label: "Lower edge above ground", Kind: KindLength, Min: 0, Max: 10_000,
			Advanced: true, Example: "0.2m", Help: "How far the lower edge of the face is off the ground."},
		{Key: "depth", Label: "Thickness", Kind: KindLength, Min: 0, Max: 5000, Advanced: true, Example: "40cm",
			Help: "Of the face from front to back; matters for wind from the side."},
		{Key: "forward", Label: "Weight forward", Kind: KindLength, Min: 0, Max: 5000, Advanced: true, Example: "10cm",
			Help: "How far the weight sits in front of the middle of the feet: balloons on the front of a frame."},
		{Key: "factor", Label: "Safety factor", Kind: KindNumber, Min: 1.5, Max: 10, Default: "1.5",
			Example: "2", Advanced: true, Help: "How many times more must hold than pushes. 1.5 is usual and the least."},
	},
	Outputs: []Output{
		{"verdict", "Verdict", "holds; needs ballast; do not use", KindText, true},
		{"ballast_kg", "Add on the feet", "Weight to add, spread evenly, rounded up to whole kilograms; 0 when none",
			KindKilograms, true},
		{"overturn_factor", "Against tipping", "How many times more holds it than tips it; 1.5 or more", KindNumber, false},
		{"slide_factor", "Against sliding", "How many times more holds it than slides it; 1.5 or more", KindNumber, false},
		{"wind_n", "Wind pushes", "Force of the wind on the face; only with wind", KindForce, false},
		{"take_down_mps", "Take it down at",
			"Gust at which to take it down; 0 when it must not stand in any, only with wind", KindSpeed, false},
		{"watch_mps", "Watch from", "Gust from which somebody stands by; only with wind", KindSpeed, false},
		{"worst_edge", "Tips over", "The edge it would go over", KindText, false},
	},
	Cautions: []string{rig.CautionStand, rig.CautionWind, rig.CautionLifting},
	Example: Example{
		Story: "A closed backdrop 2 m square, its middle 1.25 m up, in 10 m/s, on feet 1 m deep. The wind pushes with " +
			"½ × 1.25 × 10² × 1.80 × 4 = 450 N, 0.1 m above the middle. That needs 450 × 1.35 × 1.5 / 0.5 / 9.81 = " +
			"186 kg in all. It weighs 20 kg",
		Inputs: []Entry{{Key: "width", Text: "2m"}, {Key: "height", Text: "2m"}, {Key: "bottom", Text: "0.25m"},
			{Key: "weight", Text: "20kg"}, {Key: "base_depth", Text: "1m"}, {Key: "wind", Text: "10 m/s"},
			{Key: "ground", Text: "wood feet on concrete"}},
		Expect: []Expectation{{Key: "wind_n", Value: 450, Within: 0.01}, {Key: "ballast_kg", Value: 166},
			{Key: "overturn_factor", Value: 0.161, Within: 0.001}},
	},
	Run: runTip,
}

func runTip(v Values, result *Result) error {
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
		return v.refuse("forward", "the weight sits in front of the feet, so it falls by itself", nil)
	}
	push, err := v.pushOnFrame()
	if err != nil {
		return err
	}
	factor := v.Number("factor")
	t, err := frame.Tip(push, rig.TipRule{OverturnFactor: factor, SlideFactor: factor})
	if err != nil {
		return v.blame("wind", err)
	}
	for _, n := range t.Notes {
		result.note(n.Text, n.Figures...)
	}
	if top := frame.BottomMM + frame.HeightMM; push.PushN > 0 && push.PushAtMM > top {
		result.note("The push is above the upper edge, which is {length} up.", top)
	}
	result.figures("overturn_factor slide_factor ballast_kg",
		t.OverturnFactor, t.SlideFactor, t.BallastKG)
	if t.WindN > 0 {
		result.figures("wind_n take_down_mps watch_mps",
			t.WindN, t.TakeDownMPS, t.WatchMPS)
	}
	result.Outputs["verdict"] = string(t.Verdict)
	result.Outputs["worst_edge"] = t.WorstEdge
	v.tipSources(result, frame, t, ground)
	v.tipWorking(result, frame, push, t, ground)
	result.Drawing = drawTip(v, frame, push, t)
	return nil
}

// pushOnFrame returns the wind and the push. It turns Beaufort forces into gusts.
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
		return push, v.refuse("wind", "there is neither wind nor a push", nil)
	}
	return push, nil
}

// beaufort reports whether the input was typed as a Beaufort force, which is a mean wind and not a gust.
func (v Values) beaufort(key string) bool {
	typed := strings.ToLower(v.given.typed[key])
	return strings.Contains(typed, "b") || strings.Contains(typed, "force")
}

// tipSources names the sources of the wind, of the floor and of the factor.
func (v Values) tipSources(result *Result, frame rig.Frame, t rig.Tip, ground rig.Ground) {
	if t.WindN > 0 {
		result.use("wind/pressure", "wind/sign")
		result.useIf(frame.Solidity < 1, "wind/part-open")
		result.use("wind/gusts", "wind/act", "wind/highest")
	}
	result.cite(friction(ground))
	result.useIf(v.assumed("factor"), "tip/factor")
}

func (v Values) tipWorking(result *Result, frame rig.Frame, push rig.Push, t rig.Tip, ground rig.Ground) {
	if push.WindMPS > 0 {
		if v.beaufort("wind") {
			result.step("Gusts", "Beaufort is a mean wind: upper edge {speed} × {1}", "{speed}", v.Number("wind"),
				rig.GustFactor, push.WindMPS)
		}
		result.step("Wind presses", "½ × density of air × ({speed})²", v.windPressure(t.PressurePa), push.WindMPS)
		result.step("Wind pushes", "pressure × {length} × {length} × drag {2} ("+t.Drag.Code+")", "{force}",
			frame.WidthMM, frame.HeightMM, t.Drag.Coefficient, t.WindN)
	}
	if push.PushN > 0 {
		result.step("Somebody pushes", "at {length}", "{force}", push.PushAtMM, push.PushN)
	}
	result.step("Weight holds", "{mass} × gravity", "{force}", frame.MassG, rig.WeightN(frame.MassG))
	result.step("Against tipping", "weight × half the feet / push × height, over the "+t.WorstEdge+" edge", "{2}",
		t.OverturnFactor)
	result.step("Against sliding", "weight × {2} ("+ground.Name+") / push", "{2}", ground.Friction, t.SlideFactor)
	result.step("Add", "until both are {1}, rounded up", "{kilograms}", v.Number("factor"), t.BallastKG)
}

// drawTip shows the frame from the side with wind, feet and the ballast.
func drawTip(v Values, f rig.Frame, push rig.Push, t rig.Tip) *Drawing {
	s := v.sketch()
	top := f.BottomMM + f.HeightMM
	thick := math.Max(f.DepthMM, top*0.03)
	half := f.BaseDepthMM / 2
	s.line(RoleGround, -half-top*0.4, 0, half+top*0.4, 0)
	s.line(RoleFrame, -half, 0, half, 0)
	s.line(RoleFrame, 0, 0, 0, f.BottomMM)
	s.box(RoleBox, -thick/2+f.ForwardMM, f.BottomMM, thick, f.HeightMM)
	if push.WindMPS > 0 {
		middle := f.BottomMM + f.HeightMM/2
		for _, y := range []float64{f.BottomMM + f.HeightMM*0.2, middle, f.BottomMM + f.HeightMM*0.8} {
			label := ""
			if y == middle {
				label = v.say("{force}", t.WindN)
			}
			s.arrow(RoleWind, -thick/2-top*0.35, y, -thick/2-top*0.03, y, label)
		}
	}
	if push.PushN > 0 {
		s.arrow(RoleWind, thick/2+top*0.35, push.PushAtMM, thick/2+top*0.03, push.PushAtMM, "{force}", push.PushN)
	}
	if t.BallastKG > 0 {
		s.box(RoleLoad, -half, 0, half*0.3, top*0.05)
		s.box(RoleLoad, half*0.7, 0, half*0.3, top*0.05)
		s.text(half*0.85, top*0.1, "+{kilograms} in all", t.BallastKG)
	}
	s.dimension(-half, -top*0.08, half, -top*0.08, "{length}", f.BaseDepthMM)
	s.dimension(half+top*0.2, 0, half+top*0.2, top, "{length}", top)
	return s.drawing("The stand from the side: " + string(t.Verdict))
}
