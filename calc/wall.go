package calc

import (
	"garlandry/calc/cluster"
	"garlandry/calc/latex"
	"garlandry/calc/picture"
	"garlandry/calc/rig"
)

var wallCalculator = Calculator{
	Name: "wall", Title: "Wall", Group: groupGarland,
	Purpose: "Rows, columns, clusters and balloons of a wall of upright strings side by side",
	Inputs: []Input{
		{Key: "width", Label: "Width", Kind: KindLength, Min: 100, Max: 50_000, Required: true, Example: "8ft",
			Help: "Of the frame the wall covers."},
		{Key: "height", Label: "Height", Kind: KindLength, Min: 100, Max: 20_000, Required: true, Example: "6ft",
			Help: "Of the frame the wall covers, from its lower edge."},
		recipeInput,
		{
			Key:      "columns_apart",
			Label:    "Strings apart",
			Kind:     KindSmallLength,
			Min:      50,
			Max:      5000,
			Advanced: true,
			Example:  "45cm",
			Help:     "From one upright string to the next, if your frame fixes it. Left out, neighbours nest into each other.",
		},
		pushInput,
		measuredInput,
	},
	Outputs: []Output{
		{"clusters", "Clusters", "Rows times columns", KindCount, true},
		{"balloons", "Balloons", "Balloons in all, without spares", KindCount, true},
		{"rows", "Rows", "Clusters on top of each other, rounded up", KindCount, false},
		{"columns", "Columns", "Upright strings side by side, rounded up", KindCount, false},
		{"height_mm", "High", "How high it comes out with whole rows", KindLength, false},
		{"width_mm", "Wide", "How wide it comes out with whole columns", KindLength, false},
		{"ties", "Ties", "Modelling balloons (260s) to join the clusters, without those that fix the strings to the frame",
			KindCount, false},
		pushOutput,
	},
	Cautions: []string{rig.CautionStand, rig.CautionWind, rig.CautionLadder, latex.CautionChoking},
	Example: Example{
		Story:  "Reading room reopening: the photo wall, 8 ft square, quads at 9.5 in",
		Inputs: []Entry{{Key: "width", Text: "8ft"}, {Key: "height", Text: "8ft"}, {Key: "recipe", Text: "2x11@9.5"}},
		Expect: []Expectation{{Key: "rows", Value: 16}, {Key: "columns", Value: 5, Within: 1}},
	},
	Run: runWall,
}

func runWall(v Values, result *Result) error {
	width, height, recipe := v.Number("width"), v.Number("height"), v.Recipe("recipe")
	push, err := v.pushOf(recipe)
	if err != nil {
		return err
	}
	pitch, across, thick := cluster.PitchMM(recipe, push), cluster.WidthMM(recipe, push), widestMM(recipe)
	apart, packed := cluster.SideBySideMM(recipe, push, cluster.SideBySideReach)
	why, source := v.say("{small_length} wide, as seen, and neighbours nest into each other", across), "wall/nested"
	if packed {
		why, source = "as balloons of these sizes pack", "wall/closest"
	}
	if v.Has("columns_apart") {
		apart, why = v.Number("columns_apart"), "as you say"
	}
	rows, columns := layersFor(height, pitch, thick), layersFor(width, apart, across)
	if rows*columns > 200_000 {
		return v.refuse("recipe", "that would be more than 200000 clusters", nil)
	}
	count := rows * columns
	builtHigh, builtWide := stackMM(rows, pitch, thick), stackMM(columns, apart, across)
	result.figures("height_mm width_mm",
		builtHigh, builtWide)
	result.counts("rows columns clusters balloons ties",
		rows, columns, count, count*recipe.Balloons(), count*recipe.Ties())
	result.pushed(push, recipe)
	result.useSizes(v, "recipe")
	result.use("ties/join")
	result.useIf(!v.Has("columns_apart"), source)
	result.step("Rows apart", recipe.String()+" at rest on a string at that push", "{small_length}", pitch)
	result.step("Rows", "1 + ({length} − {small_length}) / {small_length}, rounded up", "{0}", height, thick, pitch,
		float64(rows))
	result.step("Columns apart", why, "{small_length}", apart)
	result.step("Columns", "1 + ({length} − {small_length}) / {small_length}, rounded up", "{0}", width, across, apart,
		float64(columns))
	result.step("Clusters", "{0} × {0}", "{0}", float64(rows), float64(columns), float64(count))
	result.step("Balloons", "{0} × {0}", "{0}", float64(count), float64(recipe.Balloons()),
		float64(count*recipe.Balloons()))
	result.step("Comes out", "whole rows and columns", "{length} × {length}", builtWide, builtHigh)
	if width <= across {
		result.note("A wall this narrow is one string: the column calculator tells more.")
	}
	if columns > 1 {
		result.note("One string fewer makes it {length} wide. Compare that with your frame.",
			stackMM(columns-1, apart, across))
	}
	result.note(
		"Make one string first and hang it. If it is not {length} long, enter what you counted as a base you made.",
		builtHigh,
	)
	size := wallSize{rows, columns, apart, builtWide, builtHigh}
	result.layOut = func() *Drawing { return drawWall(v, recipe, push, size) }
	return nil
}

type wallSize struct {
	rows, columns         int
	apart, wideMM, highMM float64
}

func drawWall(v Values, r cluster.Recipe, push cluster.Push, w wallSize) *Drawing {
	s := v.sketch()
	const mostDrawn = 3000
	if w.rows*w.columns*r.Balloons() <= mostDrawn {
		s.balloons(RoleBalloon, 0, 0, picture.Wall(picture.Equal(r, w.rows*w.columns), push, w.columns, w.apart))
	} else {
		s.box(RoleBox, 0, 0, w.wideMM, w.highMM)
	}
	s.line(RoleGround, 0, 0, w.wideMM, 0)
	gap := (w.wideMM + w.highMM) / 20
	s.dimension(0, -gap, w.wideMM, -gap, "{length}", w.wideMM)
	s.dimension(-gap, 0, -gap, w.highMM, "{length}", w.highMM)
	return s.drawing("A wall of {string|strings} of {cluster|clusters}", float64(w.columns), float64(w.rows))
}
