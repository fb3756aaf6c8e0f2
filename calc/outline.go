package calc

import (
	"math"
	"strings"

	"garlandry/calc/outline"
)

var outlineCalculator = Calculator{
	Name: "outline", Title: "Length along a line", Group: groupGarland,
	Purpose: "How long a garland is along an arch, a hoop, a swag or a free curve, and its sections",
	Inputs: []Input{
		{
			Key:      "shape",
			Label:    "Shape",
			Kind:     KindChoice,
			Choices:  shapeNames(),
			Required: true,
			Example:  "arch",
			Help: "line: straight. arc: part of a circle over a chord. arch: floor to floor, straight legs and a half " +
				"circle, or a low half ellipse. catenary: a swag that hangs. hoop: a ring or part of it. ellipse: an oval or " +
				"part of it. parabola: a bow. curve: through points of your own.",
		},
		{Key: "width", Label: "Width", Kind: KindLength, Min: 10, Max: 500_000, Example: "2.4m",
			Help: "Between the feet or ends; for an ellipse its outer width: arc, arch, ellipse."},
		{Key: "height", Label: "Height", Kind: KindLength, Min: 10, Max: 500_000, Example: "2.4m",
			Help: "At the highest place: arc, arch, ellipse."},
		{Key: "span", Label: "Span", Kind: KindLength, Min: 10, Max: 500_000, Example: "2.4m",
			Help: "Between the two ends: line, catenary, parabola, arc."},
		{Key: "rise", Label: "Rise", Kind: KindLength, Max: 500_000, Example: "2.4m",
			Help: "How far the middle stands above the ends: arc, parabola."},
		{Key: "sag", Label: "Sag", Kind: KindLength, Max: 500_000, Example: "2.4m",
			Help: "How far a hanging swag dips at the middle: catenary."},
		{Key: "diameter", Label: "Diameter", Kind: KindLength, Min: 10, Max: 500_000, Example: "2.4m",
			Help: "Across the ring, from tube to tube: hoop."},
		{Key: "part", Label: "Part of the ring", Kind: KindPart, Min: 0.01, Max: 1, Default: "100 %", Example: "75%",
			Help: "How much of the way round carries balloons: 75 %, 0.75 or 3/4: hoop, ellipse."},
		{Key: "points", Label: "Points", Kind: KindPoints, Example: "0,0; 1.2,0.8; 2.4,0", Advanced: true,
			Help: "Across and up for each point the line passes, in metres (or feet), with semicolons between: curve."},
		{
			Key:     "section_max",
			Label:   "Longest section",
			Kind:    KindLength,
			Min:     100,
			Max:     500_000,
			Example: "1.8m",
			Help: "The longest piece that goes into the car and through the doors. The line is cut into equal sections " +
				"no longer than this.",
		},
	},
	Outputs: []Output{
		{"length_mm", "Length", "Along the line", KindLength, true},
		{"sections", "Sections", "Pieces to build and carry", KindCount, true},
		{"section_mm", "Each", "Length of one section", KindLength, false},
	},
	Example: Example{
		Story: "Reading room reopening: the door arch, 2 m wide and 3 m high, in sections of at most 1.8 m. Two legs of " +
			"2 m and half a circle of 1 m radius: 4 + π = 7.14 m",
		Inputs: []Entry{{Key: "shape", Text: "arch"}, {Key: "width", Text: "2m"}, {Key: "height", Text: "3m"},
			{Key: "section_max", Text: "1.8m"}},
		Expect: []Expectation{{Key: "length_mm", Value: 4000 + 1000*math.Pi, Within: 1e-3}, {Key: "sections", Value: 4},
			{Key: "section_mm", Value: 1785.4, Within: 0.01}},
	},
	Run: runOutline,
}

// measures are the inputs of each shape. "a|b" means either; the first is the usual name.
var measures = [...]struct {
	kind  outline.Kind
	names []string
}{
	{outline.Line, []string{"span|width"}},
	{outline.Arc, []string{"width|span", "rise|height|sag"}},
	{outline.Arch, []string{"width|span", "height|rise"}},
	{outline.Catenary, []string{"span|width", "sag|rise|height"}},
	{outline.Hoop, []string{"diameter|width", "part"}},
	{outline.Ellipse, []string{"width|span", "height", "part"}},
	{outline.Parabola, []string{"span|width", "rise|sag|height"}},
	{outline.Curve, []string{"points"}},
}

func measuresOf(kind outline.Kind) []string {
	for i := range measures {
		if measures[i].kind == kind {
			return measures[i].names
		}
	}
	return []string{"points"}
}

// shapeOf returns the shape with its measures, and the inputs that it does not use.
func (v Values) shapeOf() (shape outline.Shape, unused []string, err error) {
	shape.Kind = outline.Kind(v.Text("shape"))
	read, found := map[string]bool{}, make([]float64, 3)
	for i, names := range measuresOf(shape.Kind) {
		choices := strings.Split(names, "|")
		key := ""
		for _, name := range choices {
			if v.Has(name) && !read[name] {
				key = name
				break
			}
		}
		if key == "" {
			return shape, nil, v.needs(choices[0], article(shape.Kind)+" needs it")
		}
		read[key] = true
		found[i] = v.Number(key)
	}
	switch shape.Kind {
	case outline.Line:
		shape.LengthMM = found[0]
	case outline.Arc, outline.Arch, outline.Ellipse:
		shape.WidthMM, shape.HeightMM, shape.Part = found[0], found[1], found[2]
	case outline.Catenary:
		shape.SpanMM, shape.SagMM = found[0], found[1]
	case outline.Parabola:
		shape.SpanMM, shape.RiseMM = found[0], found[1]
	case outline.Hoop:
		shape.DiameterMM, shape.Part = found[0], found[1]
	case outline.Curve:
		shape.Points = v.Points("points")
	}
	for _, key := range []string{"width", "height", "span", "rise", "sag", "diameter", "part", "points"} {
		if v.Has(key) && !read[key] && (key != "part" || v.Number(key) < 1) {
			unused = append(unused, key)
		}
	}
	return shape, unused, nil
}

func runOutline(v Values, result *Result) error {
	shape, unused, err := v.shapeOf()
	if err != nil {
		return err
	}
	length, err := outline.Length(shape)
	if err != nil {
		return v.refuse(strings.Split(measuresOf(shape.Kind)[0], "|")[0], err.Error(), err)
	}
	if length > v.Number("section_max")*outline.MostSections && v.Has("section_max") {
		return v.refuse("section_max", v.say("that would be more than {0} sections", outline.MostSections), nil)
	}
	sections := outline.Sections(length, v.Number("section_max"))
	result.figures("length_mm section_mm",
		length, sections[0])
	result.counts("sections",
		len(sections))
	result.step("Length", outlineFormula(v, shape), "{length}", length)
	if source := outlineSource(shape); source != "" {
		result.use(source)
	}
	if v.Has("section_max") {
		result.use("line/sections")
		result.step("Sections", "{length} / {length}, rounded up", "{0}", length, v.Number("section_max"),
			float64(len(sections)))
		result.step("Each", "{length} / {0}", "{length}", length, float64(len(sections)), sections[0])
	}
	if len(unused) > 0 {
		result.note("Not used for this shape: " + strings.Join(unused, ", ") + ".")
	}
	if shape.Kind == outline.Hoop {
		result.note("Measured on the ring itself. Balloons sit outside it, so the outside looks longer.")
	}
	result.Drawing = drawOutline(v, shape, length, len(sections))
	return nil
}

func article(kind outline.Kind) string {
	if strings.ContainsAny(string(kind[:1]), "aeiou") {
		return "an " + string(kind)
	}
	return "a " + string(kind)
}

func outlineFormula(v Values, s outline.Shape) string {
	switch s.Kind {
	case outline.Line:
		return "straight"
	case outline.Arc:
		return v.say("arc {length} wide, {length} high: w (1 + t²) atan(t) / t, t = 2 h / w", s.WidthMM,
			s.HeightMM)
	case outline.Arch:
		if outline.ArchTopOf(s.WidthMM, s.HeightMM) == outline.HalfCircle {
			return v.say("2 × ({length} − {length} / 2) + π × {length} / 2", s.HeightMM, s.WidthMM, s.WidthMM)
		}
		return v.say("half an ellipse, {length} wide and {length} high", s.WidthMM, s.HeightMM)
	case outline.Catenary:
		return v.say("hanging over {length} with a sag of {length}: w sinh(u) / u", s.SpanMM, s.SagMM)
	case outline.Hoop:
		return v.say("{1} % of π × {length}", s.Part*100, s.DiameterMM)
	case outline.Ellipse:
		return v.say("{1} % of 2 × width × E(m), m = 1 − (height / width)²", s.Part*100)
	case outline.Parabola:
		return "w/2 (√(1 + x²) + asinh(x)/x), x = 4 × rise / span"
	}
	return v.say("smooth curve through {point|points}", float64(len(s.Points)))
}

// outlineSource returns the source of a line's length, or "" for a straight line.
func outlineSource(s outline.Shape) string {
	switch s.Kind {
	case outline.Line:
		return ""
	case outline.Ellipse:
		return "line/ellipse"
	case outline.Catenary:
		return "line/catenary"
	case outline.Parabola:
		return "line/parabola"
	case outline.Curve:
		return "line/curve"
	case outline.Arch:
		if outline.ArchTopOf(s.WidthMM, s.HeightMM) != outline.HalfCircle {
			return "line/ellipse"
		}
	}
	return "line/circle"
}

// drawOutline shows the line with its section cuts and outer measures.
func drawOutline(v Values, shape outline.Shape, length float64, sections int) *Drawing {
	points, err := outline.Points(shape, 97)
	if err != nil {
		return nil
	}
	s := v.sketch()
	low, high := points[0], points[0]
	for _, p := range points {
		low = outline.Point{XMM: math.Min(low.XMM, p.XMM), YMM: math.Min(low.YMM, p.YMM)}
		high = outline.Point{XMM: math.Max(high.XMM, p.XMM), YMM: math.Max(high.YMM, p.YMM)}
	}
	wide, tall := high.XMM-low.XMM, high.YMM-low.YMM
	longer := math.Max(wide, tall)
	s.path(RoleFrame, points)
	if sections > 1 && sections <= 60 {
		if cuts, err := outline.Points(shape, sections+1); err == nil {
			for _, cut := range cuts {
				s.circle(RoleMeasure, cut.XMM, cut.YMM, longer*0.012)
			}
		}
	}
	if wide > longer*0.05 {
		s.dimension(low.XMM, low.YMM-longer*0.08, high.XMM, low.YMM-longer*0.08, "{length}", wide)
	}
	if tall > longer*0.05 {
		s.dimension(low.XMM-longer*0.08, low.YMM, low.XMM-longer*0.08, high.YMM, "{length}", tall)
	}
	s.text((low.XMM+high.XMM)/2, high.YMM+longer*0.06, "{length} along the line", length)
	return s.drawing("The line of "+article(shape.Kind)+", {length} long, in {section|sections}", length,
		float64(sections))
}

// shapeNames lists the kinds of line in the order to offer them.
func shapeNames() []string {
	var names []string
	for _, kind := range outline.Kinds() {
		names = append(names, string(kind))
	}
	return names
}
