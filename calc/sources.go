package calc

import (
	"slices"

	"garlandry/calc/cargo"
	"garlandry/calc/cluster"
	"garlandry/calc/latex"
	"garlandry/calc/measure"
	"garlandry/calc/rig"
)

// sourceRow is a row of the table of sources. The text may have gaps for figures, see say.
type sourceRow struct {
	key, mark, text string
	figures         []float64
}

// sourceTable is the only place where a rule or a figure of a calculator gets its mark. [Result.use] names a row where
// a calculator uses it. The marks of floors and of tubes stand beside their figures in calc/rig, see [friction] and
// [modulus].
var sourceTable = [...]sourceRow{
	{"rest", MarkPublished, "Balloons come to rest by FIRE: Bitzek et al., Physical Review Letters 97 (2006) 170201",
		nil},
	{"spheres", MarkFromMemory, "Balloons as soft spheres of equal stiffness, held at their necks by weak springs",
		nil},
	{"push", MarkCommonPractice, "The push: quads of 11-inch balloons sized to 9.5 in stand two to the foot, eight " +
		"balloons a foot", nil},
	{"push/own", MarkMeasured, "Your own push", nil},
	{"ties/join", MarkCommonPractice, "One tie joins a cluster to its neighbour: a 260, doubled, as a loop", nil},
	{"ties/accent", MarkCommonPractice, "{1} of a 260 for each accent", []float64{cluster.TiesPerAccent}},
	{"accents/scattered", MarkFromMemory, "Scattered discs: each accent hides its share of what still shows (Boolean " +
		"model of stochastic geometry)", nil},
	{"accents/recipe", MarkCommonPractice, "Accents of two duplets of 5-inch balloons", nil},
	{"duplets/most", MarkCommonPractice, "{0} duplets are the most that are usually twisted into one cluster",
		[]float64{cluster.CommonMaxDuplets}},
	{"line/circle", MarkPublished, "Straight parts and arcs of a circle, radius × angle (textbook geometry)", nil},
	{"line/ellipse", MarkPublished, "Ellipse: complete elliptic integral, Abramowitz & Stegun chapter 17", nil},
	{"line/catenary", MarkPublished, "Catenary: its closed formula (textbook geometry)", nil},
	{"line/parabola", MarkPublished, "Parabola: its closed formula (textbook geometry)", nil},
	{"line/curve", MarkPublished, "Free curve: centripetal Catmull-Rom through the points, measured by quadrature",
		nil},
	{"line/sections", MarkCommonPractice, "A long base is carried in sections two people can take through a door", nil},
	{"column/wound", MarkFromMemory, "Layers are wound round the pole, each turned against the next; only foot and " +
		"top are tied", nil},
	{"wall/nested", MarkFromMemory, "Strings side by side nest as touching quads turned by half a step do: 2.073 " +
		"diameters apart, by geometry. Other recipes are treated alike", nil},
	{"wall/closest", MarkPublished, "Balloons fill at most 0.64 of the wall, those of several sizes at least 0.60: " +
		"random packings, Berryman, Physical Review A 27 (1983) 1053; Scott, Nature 188 (1960) 908", nil},
	{"size/full", MarkCommonPractice, "Full diameter of each size", nil},
	{"size/decor", MarkCommonPractice, "Usual diameter of each size for décor", nil},
	{"size/gas", MarkCommonPractice, "Gas in a full balloon: helium charts of suppliers, 0.25 cubic feet for 9-inch, " +
		"0.5 for 11-inch, 0.55 for 12-inch, 1.5 for 16-inch, 15 for 36-inch", nil},
	{"size/gas/others", MarkFromMemory, "Gas in a full 5-, 10-, 18- or 24-inch balloon: up to a fifth more than a " +
		"sphere", nil},
	{"size/pear", MarkFromMemory, "A balloon is a sphere up to {0} % of full and a pear when full",
		[]float64{latex.RoundPct}},
	{"size/gas/own", MarkMeasured, "How much gas yours hold", nil},
	{"size/latex", MarkCommonPractice, "Mass of one empty balloon of each size; weigh ten of yours to replace it", nil},
	{"size/latex/own", MarkMeasured, "Mass of your own balloon", nil},
	{"rubber/law", MarkPublished, "Thin sphere of Mooney-Rivlin rubber (Rivlin 1952), as in Müller & Strehlow, " +
		"Rubber and Rubber Balloons, Lecture Notes in Physics 637 (2004)", nil},
	{"rubber/constants", MarkFromMemory, "The rubber's two constants, its density and how far a full balloon is " +
		"stretched", nil},
	{"heat/gas", MarkPublished, "Gas law with the pressure of the rubber, n R T = (air + rubber) V; Charles's law " +
		"when the rubber is slack", nil},
	{"heat/own", MarkMeasured, "How much yours grow", nil},
	{"air/standard", MarkPublished, "Standard atmosphere: ISO 2533, US Standard Atmosphere 1976", nil},
	{"air/moist", MarkPublished, "Moist air: Picard, Davis, Gläser, Fujii, Metrologia 45 (2008) 149, CIPM-2007", nil},
	{"helium", MarkFromMemory, "Helium's molar mass (IUPAC) and compressibility, Z = 1 + B p / R T with B = {1} " +
		"cm³/mol", []float64{latex.HeliumVirialCM3}},
	{"cylinder/rated", MarkFromMemory, "Cylinders are rated by what comes out at 70 °F (21 °C) at sea level", nil},
	{"float", MarkScaled, "Float time: a plain full 11-inch floats {0} to {0} hours; other sizes scaled by radius " +
		"× thickness of the skin", []float64{latex.AnchorMinHours, latex.AnchorMaxHours}},
	{"float/warmth", MarkFromMemory, "Warm rubber leaks faster: activation energy of permeation 30 kJ/mol", nil},
	{"float/own", MarkMeasured, "How long yours floated", nil},
	{"helium/weight", MarkCommonPractice, "The weight at the end of the ribbon is {1} times the lift",
		[]float64{latex.BallastFactor}},
	{"spares/quantile", MarkPublished, "Quantile of the negative binomial distribution, exact", nil},
	{"spares/breakage", MarkCommonPractice, "Breakage of 2 to 3 % with practised hands, 5 % with beginners", nil},
	{"split/remainder", MarkPublished, "Largest remainder (Hamilton's method of apportionment); equal remainders go " +
		"to the larger share, then to the earlier", nil},
	{"split/all", MarkCommonPractice, "No colour is left out when there is enough for all", nil},
	{"bags/cheapest", MarkPublished, "Least cost, then fewest left over, then fewest bags, exact by dynamic " +
		"programming", nil},
	{"bar/beam", MarkPublished, "Elastic beam on two supports: superposed point and spread loads (textbook formulas, " +
		"AISC Manual Table 3-23)", nil},
	{"bar/bench", MarkMeasured, "Your bench test", nil},
	{"bar/yield", MarkFromMemory, "Stress that bends a tube for good, and its density", nil},
	{"bar/creep", MarkFromMemory, "Plastic sinks to about twice the dip within a day", nil},
	{"bar/visible", MarkCommonPractice, "A dip of the span / {0} shows", []float64{rig.VisiblePart}},
	{"bar/useless", MarkCommonPractice, "A dip of the span / {0} is too much", []float64{rig.UselessPart}},
	{"wind/pressure", MarkPublished, "Wind pressure ½ ρ v², ρ = {2} kg/m³: EN 1991-1-4 clause 4.5",
		[]float64{rig.AirDensity}},
	{"wind/sign", MarkPublished, "Drag, the greater of two codes: {2} for signboards, EN 1991-1-4 clause 7.4.3; by " +
		"shape and height for solid signs, ASCE 7-16 figure 29.3-1, which puts the push {2} of the height above the " +
		"middle",
		[]float64{rig.SignDrag, rig.HighPush}},
	{"wind/part-open", MarkPublished, "Drag of a part-open face: {2} on the area of its bars, EN 1991-1-4, or ASCE " +
		"7-16: {2} for a very open one (table 29.4-2), less for small openings in a closed one (figure 29.3-1)",
		[]float64{rig.SignDrag, rig.OpenDrag}},
	{"wind/gusts", MarkFromMemory, "Gusts are {1} times the mean wind", []float64{rig.GustFactor}},
	{"wind/highest", MarkFromMemory, "No light décor stands in gusts over {speed}, whatever it weighs: the top of " +
		"Beaufort 5", []float64{rig.HighestWindMPS}},
	{"wind/act", MarkPublished, "Act at {part} and {part} of the strongest wind: event guide of a public park " +
		"(Cardiff council)", []float64{rig.WatchPart, rig.TakeDownPart}},
	{"tip/factor", MarkFromMemory, "Factor {1} against tipping and sliding: guidance on temporary demountable " +
		"structures", []float64{rig.TipFactor}},
	{"hang/lean", MarkPublished, "Pull in leaning lines: weight / lines / cosine of the lean (statics)", nil},
	{"hang/knot", MarkFromMemory, "Knots keep 50 to 90 % of the strength; {part} counts", []float64{rig.KnotFactor}},
	{"hang/factor", MarkFromMemory, "Safety factor 5 to 12 for rope; {0} counts", []float64{rig.LineFactor}},
	{"hang/two", MarkFromMemory, "Of three or more lines two are counted, as for slings", nil},
	{"car/poured", MarkPublished, "Balls poured in at random: voids by Benyahia & O'Neill, Particulate Science and " +
		"Technology 23 (2005) 169", nil},
	{"car/litres", MarkPublished, "Litres of a car: bricks of 200 × 100 × 50 mm, as ISO 3832 counts them", nil},
	{"car/shape", MarkFromMemory, "Shape of a loading space known by its litres alone: 2.2 : 1.3 : 1", nil},
	{"car/packing", cargo.CommonPackingMark, "Soft clusters and sections fill {2} of a car, at the loose end of " +
		"random packings (0.555 to 0.64)", []float64{cargo.CommonPacking}},
	{"car/bend", MarkCommonPractice, "A section bends no tighter than its own thickness", nil},
	{"car/squeeze", MarkCommonPractice, "Soft work gives {0} % at the door", []float64{cargo.CommonSqueezePct}},
}

// use names the rows of the table of sources that the result uses. A row stands once, where it was first used.
func (r *Result) use(keys ...string) {
	for _, key := range keys {
		r.cite(sourceOf(key))
	}
}

// useIf names a row if that branch was taken.
func (r *Result) useIf(taken bool, key string) {
	if taken {
		r.use(key)
	}
}

// cite adds a source to the result, once.
func (r *Result) cite(row sourceRow) {
	source := row.source(r.units)
	if !slices.Contains(r.Sources, source) {
		r.Sources = append(r.Sources, source)
	}
}

func (row sourceRow) source(s measure.System) Source {
	text, _ := say(s, row.text, row.figures)
	return Source{Text: text, Mark: row.mark}
}

// sourceOf returns a row of the table. A key that is not there gives a row without a mark, which a test finds.
func sourceOf(key string) sourceRow {
	for _, row := range sourceTable {
		if row.key == key {
			return row
		}
	}
	return sourceRow{text: key}
}

// friction returns the source of a floor's friction.
func friction(g rig.Ground) sourceRow {
	return sourceRow{mark: g.Mark, text: "Friction of " + explained(g.Name, g.Source)}
}

// modulus returns the source of a material's stiffness.
func modulus(m rig.Material) sourceRow {
	return sourceRow{mark: m.Mark, text: "Stiffness of " + explained(m.Name, m.Source)}
}

// explained returns a name with its source behind it, if there is one: "rubber: EN 12812".
func explained(name, source string) string {
	if source == "" {
		return name
	}
	return name + ": " + source
}

// Sources returns everything that a calculator may name as a source, in that system of units, with its mark.
func Sources(s measure.System) []Source {
	var all []Source
	for _, row := range sourceTable {
		all = append(all, row.source(s))
	}
	for _, name := range rig.GroundNames() {
		ground, _ := rig.FindGround(name)
		all = append(all, friction(ground).source(s))
	}
	for _, name := range rig.MaterialNames() {
		material, _ := rig.FindMaterial(name)
		all = append(all, modulus(material).source(s))
	}
	return all
}
