package calc

import (
	"math"

	"garlandry/calc/rig"
)

var dipCalculator = Calculator{
	Name: "dip", Title: "Will the bar dip", Group: groupHold,
	Purpose: "How far a top bar sinks under what hangs on it, from a bench test or from its tube",
	Inputs: []Input{
		{Key: "span", Label: "Span", Kind: KindLength, Min: 100, Max: 15_000, Required: true, Example: "2.4m",
			Help: "Between the posts, from middle to middle."},
		{
			Key:      "loads",
			Label:    "What hangs on it",
			Kind:     KindLoads,
			Required: true,
			Example:  "sign 2kg @ 1.2m, cloth 1.8kg along",
			Help: "Name, weight, place, with commas between. @ 1.2m counts from the left post. \"along\" spreads it over the " +
				"whole span, \"from 0.6m to 2m\" over a part. No place means the middle.",
		},
		{Key: "test_span", Label: "Bench test: span", Kind: KindLength, Min: 100, Max: 15_000, Example: "2.4m",
			Help: "The span you tested the bar at. Left out, the span above."},
		{Key: "test_weight", Label: "Bench test: weight", Kind: KindMass, Min: 50, Max: 200_000, Example: "1.55kg",
			Help: "What you hung at the middle. A full 1.5 litre bottle is about 1.55 kg."},
		{Key: "test_dip", Label: "Bench test: dip", Kind: KindThinLength, Min: 0.1, Max: 2000, Example: "18mm",
			Help: "How far the middle sank under the weight, from a straight line between the posts."},
		{Key: "test_stays", Label: "Bench test: stays", Kind: KindThinLength, Min: 0, Max: 2000, Example: "6mm",
			Help: "How far it still sags with the weight off: from play in the joints and the bar's own weight."},
		{Key: "tube_outer", Label: "Tube: across", Kind: KindThinLength, Min: 3, Max: 300, Example: "28mm", Advanced: true,
			Help: "Outer diameter, if you did no bench test."},
		{Key: "tube_wall", Label: "Tube: wall", Kind: KindThinLength, Min: 0.1, Max: 150, Example: "1.2mm", Advanced: true,
			Help: "Thickness of its wall."},
		{Key: "material", Label: "Tube: material", Kind: KindChoice,
			Choices: rig.MaterialNames(), Default: "steel", Example: "aluminium", Advanced: true,
			Help: "What the tube is made of."},
		{Key: "joints", Label: "Tube: joints", Kind: KindCount, Min: 0, Max: 20, Default: "0", Example: "1", Advanced: true,
			Help: "Places where the bar is put together, spread evenly."},
		{Key: "play", Label: "Tube: play of a joint", Kind: KindAngle, Min: 0, Max: 10, Default: "0",
			Example: "0.5", Advanced: true,
			Help: "How far a joint turns before it catches, in degrees. One centimetre at the end of a metre is 0.57."},
		{Key: "left", Label: "Sticks out left", Kind: KindLength, Min: 0, Max: 15_000, Example: "0.3m", Advanced: true,
			Help: "How far the bar goes on past the left post. Places there are below 0: sign 1kg @ -0.2m."},
		{Key: "right", Label: "Sticks out right", Kind: KindLength, Min: 0, Max: 15_000, Example: "0.3m", Advanced: true,
			Help: "How far the bar goes on past the right post."},
		{Key: "visible", Label: "Shows from span divided by", Kind: KindNumber, Min: 50, Max: 1000,
			Default: "100", Example: "150", Advanced: true,
			Help: "A dip of a hundredth of the span shows. Larger is stricter."},
		{Key: "useless", Label: "Too much from span divided by", Kind: KindNumber, Min: 10, Max: 1000,
			Default: "50", Example: "60", Advanced: true, Help: "A dip of a fiftieth of the span is too much."},
	},
	Outputs: []Output{
		{"dip_mm", "Dips", "Largest dip of the bar", KindThinLength, true},
		{"verdict", "Verdict", "holds; holds, but the dip shows; do not use", KindText, true},
		{"limit_mm", "Shows from", "Dip that just shows", KindThinLength, false},
		{"share_pct", "Share of that", "The dip as a share of the one that just shows", KindPercent, false},
		{"at_mm", "Where", "Place of the largest dip, from the left post", KindLength, false},
		{"play_mm", "Play in that", "The part that comes from the joints", KindThinLength, false},
		{"left_post_n", "Left post carries", "Weight on the left post; below 0 the bar lifts off", KindForce, false},
		{"right_post_n", "Right post carries", "Weight on the right post", KindForce, false},
	},
	Cautions: []string{rig.CautionBar, rig.CautionOverhead, rig.CautionLadder},
	Example: Example{
		Story: "Reading room reopening: in a bench test at 2.4 m, 1.55 kg gave 18 mm, and 6 mm stayed. So 1.55 kg bends " +
			"it 12 mm. Twice the weight bends it 24 mm; with the 6 mm that is 30 mm",
		Inputs: []Entry{{Key: "span", Text: "2.4m"}, {Key: "loads", Text: "sign 3.1kg @ 1.2m"},
			{Key: "test_weight", Text: "1.55kg"}, {Key: "test_dip", Text: "18mm"}, {Key: "test_stays", Text: "6mm"}},
		Expect: []Expectation{{Key: "dip_mm", Value: 30, Within: 0.01}, {Key: "limit_mm", Value: 24, Within: 1e-6},
			{Key: "verdict", Text: string(rig.VerdictVisible)}},
	},
	Run: runDip,
}

// readBar fills in the bar from its bench test or its tube.
func (v Values) readBar(bar *rig.Bar) (err error) {
	span := v.Number("span")
	tested := v.Has("test_weight") || v.Has("test_dip") || v.Has("test_stays") || v.Has("test_span")
	tube := v.Has("tube_outer") || v.Has("tube_wall")
	switch {
	case tested && tube:
		return v.refuse("tube_outer",
			"give a bench test or a tube, not both; the bench test is more exact", nil)
	case tested:
		err = v.readBench(bar)
	case tube:
		err = v.readTube(bar)
	default:
		return v.needs("test_weight", "give a bench test (test_weight, test_dip) or a tube (tube_outer, tube_wall)")
	}
	bar.LeftMM, bar.RightMM = v.Number("left"), v.Number("right")
	switch {
	case err != nil:
		return err
	case bar.LeftMM > span:
		return v.refuse("left", "it sticks out further than the span", nil)
	case bar.RightMM > span:
		return v.refuse("right", "it sticks out further than the span", nil)
	}
	return nil
}

func (v Values) readBench(bar *rig.Bar) (err error) {
	const because = "a bench test needs the weight and the dip"
	if err = v.needs("test_weight", because); err == nil {
		err = v.needs("test_dip", because)
	}
	if err != nil {
		return err
	}
	test := rig.Bench{SpanMM: v.Number("span"), MassG: v.Number("test_weight"), DipMM: v.Number("test_dip"),
		StaysMM: v.Number("test_stays")}
	if v.Has("test_span") {
		test.SpanMM = v.Number("test_span")
	}
	if test.DipMM > test.SpanMM/4 {
		return v.refuse("test_dip", "a dip of more than a quarter of the test span is too large to use: hang less", nil)
	}
	if *bar, err = rig.BenchBar(v.Number("span"), test); err == nil {
		return nil
	}
	if test.StaysMM >= test.DipMM {
		return v.blame("test_stays", err)
	}
	return v.blame("test_dip", err)
}

func (v Values) readTube(bar *rig.Bar) (err error) {
	const because = "a tube needs its diameter and its wall"
	if err = v.needs("tube_outer", because); err == nil {
		err = v.needs("tube_wall", because)
	}
	if err != nil {
		return err
	}
	material, _ := rig.FindMaterial(v.Text("material"))
	tube := rig.Tube{OuterMM: v.Number("tube_outer"), WallMM: v.Number("tube_wall"), Material: material}
	if *bar, err = rig.TubeBar(v.Number("span"), tube, v.Count("joints"), v.Number("play")*math.Pi/180); err != nil {
		return v.blame("tube_wall", err)
	}
	return nil
}

func rigLoads(loads []Load, bar rig.Bar) []rig.Load {
	hung := make([]rig.Load, len(loads))
	for i, l := range loads {
		name := l.Name
		if name == "" {
			name = "load " + whole(i+1)
		}
		switch {
		case l.Along && l.ToMM == 0 && l.FromMM == 0:
			hung[i] = bar.Along(name, l.MassG)
		case l.Along:
			hung[i] = rig.Load{Name: name, MassG: l.MassG, Spread: true, FromMM: l.FromMM, ToMM: l.ToMM}
		case l.Middle:
			hung[i] = rig.Load{Name: name, MassG: l.MassG, AtMM: bar.SpanMM / 2}
		default:
			hung[i] = rig.Load{Name: name, MassG: l.MassG, AtMM: l.AtMM}
		}
	}
	return hung
}

// dipSources names the sources of the bar's stiffness and of the limits.
func (v Values) dipSources(result *Result, bar rig.Bar) {
	result.use("bar/beam")
	if bar.Mark == rig.MarkMeasured {
		result.use("bar/bench")
	} else {
		material, _ := rig.FindMaterial(v.Text("material"))
		result.cite(modulus(material))
		result.use("bar/yield")
	}
	result.useIf(bar.Creeps, "bar/creep")
	result.useIf(v.assumed("visible"), "bar/visible")
	result.useIf(v.assumed("useless"), "bar/useless")
}

func runDip(v Values, result *Result) error {
	var bar rig.Bar
	if err := v.readBar(&bar); err != nil {
		return err
	}
	if v.Number("visible") < v.Number("useless") {
		return v.refuse("useless", "a dip that shows must be smaller than one that is too much", nil)
	}
	loads := rigLoads(v.Loads("loads"), bar)
	for _, l := range loads {
		from, to := l.AtMM, l.AtMM
		if l.Spread {
			from, to = l.FromMM, l.ToMM
		}
		if from < -bar.LeftMM-1e-6 || to > bar.SpanMM+bar.RightMM+1e-6 {
			return v.refuse(
				"loads",
				l.Name+v.say(" is off the bar, which runs from {length} to {length}", -bar.LeftMM, bar.SpanMM+bar.RightMM),
				nil,
			)
		}
	}
	d, err := bar.Dip(loads, rig.DipRule{VisiblePart: v.Number("visible"), UselessPart: v.Number("useless")})
	if err != nil {
		return v.blame("loads", err)
	}
	result.Notes = d.Notes
	switch joints, play := v.Count("joints"), v.Number("play"); {
	case v.Has("test_dip") && (joints > 0 || play > 0):
		result.note("The joints and their play are in the bench test; they are not counted again.")
	case play > 0 && joints == 0:
		result.note("Play is not counted without joints: say how many there are.")
	}
	result.figures("dip_mm limit_mm share_pct at_mm play_mm left_post_n right_post_n",
		d.DipMM, d.LimitMM, d.SharePct, d.AtMM, d.PlayMM, d.LeftPostN, d.RightPostN)
	result.Outputs["verdict"] = string(d.Verdict)
	v.dipSources(result, bar)
	result.step("Stiffness", "E × I ("+bar.Mark+")", v.stiffness(bar.StiffnessNMM2))
	for _, l := range loads {
		where := v.say("at {length}", l.AtMM)
		if l.Spread {
			where = v.say("spread from {length} to {length}", l.FromMM, l.ToMM)
		}
		result.step(l.Name, where, "{mass}", l.MassG)
	}
	result.step("Bends", "elastic lines of all loads added", "{thin_length}", d.ElasticMM)
	result.step("Play", "kink of {joint|joints}", "{thin_length}", float64(len(bar.Joints)), d.PlayMM)
	result.step("Dips", "both together, worst at {length}", "{thin_length}", d.AtMM, d.DipMM)
	result.step("Shows from", "span / {0}", "{thin_length}", v.Number("visible"), d.LimitMM)
	result.step("Too much from", "span / {0}", "{thin_length}", v.Number("useless"), d.UselessMM)
	result.Drawing = drawDip(v, bar, loads, d)
	return nil
}

// drawDip draws the bar with its dip enlarged.
func drawDip(v Values, bar rig.Bar, loads []rig.Load, d rig.Dip) *Drawing {
	s := v.sketch()
	most := 0.0
	for _, p := range d.Curve {
		most = math.Max(most, math.Abs(p.DipMM))
	}
	larger := 1.0
	if most > 0 {
		larger = math.Max(1, math.Floor(bar.SpanMM*0.12/most))
	}
	post := bar.SpanMM * 0.3
	line := make([]float64, 0, 2*len(d.Curve))
	for _, p := range d.Curve {
		line = append(line, p.AtMM, -p.DipMM*larger)
	}
	s.line(RoleGhost, -bar.LeftMM, 0, bar.SpanMM+bar.RightMM, 0)
	s.line(RoleFrame, line...)
	s.line(RoleFrame, 0, 0, 0, -post)
	s.line(RoleFrame, bar.SpanMM, 0, bar.SpanMM, -post)
	for _, l := range loads {
		if l.Spread {
			s.box(RoleLoad, l.FromMM, bar.SpanMM*0.04, l.ToMM-l.FromMM, bar.SpanMM*0.03)
			continue
		}
		s.arrow(RoleLoad, l.AtMM, bar.SpanMM*0.16, l.AtMM, bar.SpanMM*0.02, "{mass}", l.MassG)
	}
	s.dimension(d.AtMM, 0, d.AtMM, -d.DipMM*larger, "{thin_length}", d.DipMM)
	s.dimension(0, -post*1.1, bar.SpanMM, -post*1.1, "{length}", bar.SpanMM)
	drawing := s.drawing("The bar on its posts with a dip of {thin_length}: "+string(d.Verdict), d.DipMM)
	if drawing != nil && larger > 1 {
		drawing.Note = v.say("The dip is drawn {0} times larger than it is.", larger)
	}
	return drawing
}
