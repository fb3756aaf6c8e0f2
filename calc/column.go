package calc

import (
	"garlandry/calc/cluster"
	"garlandry/calc/latex"
	"garlandry/calc/rig"
)

// heightInput asks how high a thing shall be.
func heightInput(help string) Input {
	return Input{Key: "height", Label: "Height", Help: help, Kind: KindLength, Min: 100, Max: 20_000, Required: true, Example: "6ft"}
}

func columnCalculator() Calculator {
	return Calculator{
		Name: "column", Title: "Column", Group: groupGarland,
		Purpose: "Layers, clusters and balloons of an upright column",
		Inputs: append([]Input{
			heightInput("From the floor, or the top of its foot, to the top of the last balloons."),
			recipeInput(),
		}, pushInputs()...),
		Outputs: []Output{
			{"layers", "Layers", "Clusters on top of each other, rounded up", KindCount, true},
			{"balloons", "Balloons", "Balloons in all, without spares", KindCount, true},
			{"clusters", "Clusters", "One in each layer", KindCount, false},
			{"height_mm", "High", "How high it comes out with whole layers", KindLength, true},
			{"pitch_mm", "Apart", "From one layer to the next", KindSmallLength, false},
			{"ties", "Ties", "Modelling balloons (260s) to join the layers", KindCount, false},
			pushOutput(),
		},
		Cautions: []string{rig.CautionStand, rig.CautionLadder, latex.CautionChoking},
		Sources:  nestSources(),
		Example: Example{
			Story:  "Reading room reopening: a 6 ft column of quads at 9.5 in, two layers a foot: one layer is a balloon (9.5 in), each further one adds 6 in; (72 − 9.5) / 6 = 10.4, so 12 layers",
			Inputs: []Entry{{Key: "height", Text: "6ft"}, {Key: "recipe", Text: "2x11@9.5"}},
			Expect: []Expectation{{Key: "layers", Value: 12}, {Key: "balloons", Value: 48}, {Key: "height_mm", Value: 241.3 + 11*152.4, Within: 15}},
		},
		Run: runColumn,
	}
}

func runColumn(v Values) (Result, error) {
	height, recipe := v.Number("height"), v.Recipe("recipe")
	push, err := v.pushOf(recipe)
	if err != nil {
		return Result{}, err
	}
	pitch, thick := cluster.PitchMM(recipe, push), widestMM(recipe)
	layers := layersFor(height, pitch, thick)
	built := stackMM(layers, pitch, thick)
	result := Result{Outputs: map[string]any{}}
	result.figures("height_mm pitch_mm",
		built, pitch)
	result.counts("layers clusters balloons ties",
		layers, layers, layers*recipe.Balloons(), layers*recipe.Ties())
	result.pushed(push)
	result.step("Apart", "rest of "+recipe.String()+" on a string at that push", v.small(pitch))
	result.step("First layer", "as high as its largest balloon", v.small(thick))
	result.step("Layers", "1 + ("+v.length(height)+" − "+v.small(thick)+") / "+v.small(pitch)+", rounded up", whole(layers))
	result.step("High", v.small(thick)+" + "+whole(layers-1)+" × "+v.small(pitch), v.length(built))
	result.step("Balloons", whole(layers)+" × "+whole(recipe.Balloons()), whole(layers*recipe.Balloons()))
	if layers > 1 {
		result.note("One layer fewer makes it " + v.length(stackMM(layers-1, pitch, thick)) + " high. Check the ceiling, the lamps and the sprinklers above it.")
	}
	result.layOut = func() *Drawing { return drawColumn(v, recipe, push, layers) }
	return result, nil
}

func drawColumn(v Values, r cluster.Recipe, push cluster.Push, layers int) *Drawing {
	var s sketch
	pitch, girth, thick := cluster.PitchMM(r, push), cluster.GirthMM(r, push), widestMM(r)
	shown := min(layers, 60)
	high := stackMM(shown, pitch, thick)
	strung := arrange(r, push, shown)
	s.line(RoleFrame, at(0, 0), at(0, high))
	s.standing(RoleBalloon, at(0, thick/2), strung.repeated(shown, 0))
	s.line(RoleGround, at(-girth, 0), at(girth, 0))
	s.dimension(at(-girth*0.8, 0), at(-girth*0.8, high), v.length(high))
	drawing := s.drawing("A column of " + plural(shown, "layer", "layers"))
	if drawing != nil && shown < layers {
		drawing.Note = "Only the lowest " + whole(shown) + " layers are drawn."
	}
	return drawing
}

// widestMM is the largest diameter in the recipe.
func widestMM(r cluster.Recipe) float64 {
	widest := 0.0
	for _, d := range r.DiametersMM() {
		widest = max(widest, d)
	}
	return widest
}
