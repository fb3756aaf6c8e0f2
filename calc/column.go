package calc

import (
	"garlandry/calc/cluster"
	"garlandry/calc/latex"
	"garlandry/calc/picture"
	"garlandry/calc/rig"
)

var columnCalculator = Calculator{
	Name: "column", Title: "Column", Group: groupGarland,
	Purpose: "Layers, clusters and balloons of an upright column",
	Inputs: []Input{
		{Key: "height", Label: "Height", Kind: KindLength, Min: 100, Max: 20_000, Required: true, Example: "6ft",
			Help: "From the floor, or the top of its foot, to the top of the last balloons."},
		recipeInput,
		pushInput,
		measuredInput,
	},
	Outputs: []Output{
		{"layers", "Layers", "Clusters on top of each other, rounded up", KindCount, true},
		{"balloons", "Balloons", "Balloons in all, without spares", KindCount, true},
		{"clusters", "Clusters", "One in each layer", KindCount, false},
		{"height_mm", "High", "How high it comes out with whole layers", KindLength, true},
		{"pitch_mm", "Apart", "From one layer to the next", KindSmallLength, false},
		{"ties", "Ties", "Modelling balloons (260s) to hold it, one at the foot and one at the top", KindCount, false},
		pushOutput,
	},
	Cautions: []string{rig.CautionStand, rig.CautionLadder, latex.CautionChoking},
	Example: Example{
		Story: "Reading room reopening: a 6 ft column of quads at 9.5 in, two layers a foot. The first layer is 9.5 in " +
			"high, each further one adds 6 in. (72 − 9.5) / 6 = 10.4, so 12 layers",
		Inputs: []Entry{{Key: "height", Text: "6ft"}, {Key: "recipe", Text: "2x11@9.5"}},
		Expect: []Expectation{{Key: "layers", Value: 12}, {Key: "balloons", Value: 48},
			{Key: "height_mm", Value: 241.3 + 11*152.4, Within: 15}},
	},
	Run: runColumn,
}

func runColumn(v Values, result *Result) error {
	height, recipe := v.Number("height"), v.Recipe("recipe")
	push, err := v.pushOf(recipe)
	if err != nil {
		return err
	}
	pitch, thick := cluster.PitchMM(recipe, push), widestMM(recipe)
	layers := layersFor(height, pitch, thick)
	built := stackMM(layers, pitch, thick)
	result.figures("height_mm pitch_mm",
		built, pitch)
	result.counts("layers clusters balloons ties",
		layers, layers, layers*recipe.Balloons(), cluster.TiesPerColumn)
	result.pushed(push, recipe)
	result.useSizes(v, "recipe")
	result.use("column/wound")
	result.step("Apart", recipe.String()+" at rest on a string at that push", "{small_length}", pitch)
	result.step("First layer", "as high as its largest balloon", "{small_length}", thick)
	result.step("Layers", "1 + ({length} − {small_length}) / {small_length}, rounded up", "{0}", height, thick, pitch,
		float64(layers))
	result.step("High", "{small_length} + {0} × {small_length}", "{length}", thick, float64(layers-1), pitch, built)
	result.step("Balloons", "{0} × {0}", "{0}", float64(layers), float64(recipe.Balloons()),
		float64(layers*recipe.Balloons()))
	if layers > 1 {
		result.note("One layer fewer makes it {length} high. Check the ceiling, the lamps and the sprinklers above it.",
			stackMM(layers-1, pitch, thick))
	}
	result.layOut = func() *Drawing { return drawColumn(v, recipe, push, layers) }
	return nil
}

func drawColumn(v Values, r cluster.Recipe, push cluster.Push, layers int) *Drawing {
	s := v.sketch()
	pitch, width, thick := cluster.PitchMM(r, push), cluster.WidthMM(r, push), widestMM(r)
	shown := min(layers, 60)
	high := stackMM(shown, pitch, thick)
	balloons, lines := picture.Column(picture.Equal(r, shown), push, 1, pitch)
	pole := lines[0].Points
	middle, left := pole[0].XMM, -width*0.2
	s.path(RoleFrame, pole)
	s.balloons(RoleBalloon, 0, 0, balloons)
	s.line(RoleGround, middle-width, 0, middle+width, 0)
	s.dimension(left, 0, left, high, "{length}", high)
	drawing := s.drawing("A column of {layer|layers}", float64(shown))
	if drawing != nil && shown < layers {
		drawing.Note = v.say("Only the lowest {0} layers are drawn.", float64(shown))
	}
	return drawing
}

// widestMM returns the largest diameter in the recipe.
func widestMM(r cluster.Recipe) float64 {
	widest := 0.0
	for _, d := range r.DiametersMM() {
		widest = max(widest, d)
	}
	return widest
}
