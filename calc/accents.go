package calc

import (
	"math"

	"garlandry/calc/cluster"
	"garlandry/calc/latex"
)

var accentsCalculator = Calculator{
	Name: "accents", Title: "Accents", Group: groupGarland,
	Purpose: "How many small clusters close the gaps of a base",
	Inputs: []Input{
		baseLengthInput,
		recipeInput,
		{
			Key: "accent", Label: "Recipe of one accent", Kind: KindRecipe, Default: "2x5@4.5", Example: "2x5@4.5",
			Help: "What one accent is made of. Two duplets of 5-inch balloons are usual.",
		},
		{
			Key:     "coverage",
			Label:   "Cover you want",
			Kind:    KindPercent,
			Min:     1,
			Max:     cluster.MostCovered * 100,
			Default: "95 %",
			Example: "95%",
			Help:    "How much of the background the garland should hide, seen from the front.",
		},
		pushInput,
		measuredInput,
	},
	Outputs: []Output{
		{"accents", "Accents", "Accent clusters to add, rounded up", KindCount, true},
		{"accent_balloons", "Balloons in them", "Balloons of all accents, without spares", KindCount, true},
		{"coverage_before_pct", "Covered by the base", "Share of the background hidden by the base alone", KindPercent,
			false},
		{"coverage_after_pct", "Covered with accents", "Share hidden when the accents are on", KindPercent, false},
		{"ties", "Ties", "Modelling balloons (260s) to fix them, half a 260 for each accent", KindCount, false},
		pushOutput,
	},
	Cautions: []string{latex.CautionChoking, latex.CautionAllergy, latex.CautionEyes},
	Example: Example{
		Story: "Reading room reopening: sand accents on the 10 ft base of two 11-inch duplets and one of 18-inch",
		Inputs: []Entry{{Key: "length", Text: "10ft"}, {Key: "recipe", Text: "2x11@10 + 1x18@16"},
			{Key: "coverage", Text: "97%"}},
		Expect: []Expectation{{Key: "coverage_after_pct", Value: 97.5, Within: 0.6}},
	},
	Run: runAccents,
}

func runAccents(v Values, result *Result) error {
	length, base, accent := v.Number("length"), v.Recipe("recipe"), v.Recipe("accent")
	push, err := v.pushOf(base)
	if err != nil {
		return err
	}
	wished := v.Number("coverage")
	c := cluster.Accents(length, base, accent, push, wished/100)
	if c.Accents > 200_000 {
		return v.refuse("coverage", "that would take more than 200000 accents", nil)
	}
	result.figures("coverage_before_pct coverage_after_pct",
		c.Before*100, c.After*100)
	result.counts("accents accent_balloons ties",
		c.Accents, c.Accents*accent.Balloons(), int(math.Ceil(cluster.TiesPerAccent*float64(c.Accents))))
	width, ball := cluster.WidthMM(base, push), cluster.BallSeenMM(accent)
	result.pushed(push, base)
	result.useSizes(v, "recipe")
	result.use("accents/scattered", "ties/accent")
	result.useIf(v.assumed("accent"), "accents/recipe")
	result.useSizes(v, "accent")
	result.step("Band", "{length} × {small_length} wide, as seen", v.area(length*width), length, width)
	result.step("Shows", "background behind the base alone", "{percent}", 100-c.Before*100)
	result.step("One accent", "disc of {small_length}, as a cluster looks", v.area(math.Pi/4*ball*ball), ball)
	result.step("Accents", "until {percent} shows: band / disc × ln({1} / {1}), rounded up", "{0}", 100-wished,
		100-c.Before*100, 100-wished, float64(c.Accents))
	result.step("Then shows", "what is left of the background", "{percent}", 100-c.After*100)
	switch {
	case c.Accents == 0:
		result.note("The base alone covers that much; accents are for looks only.")
	default:
		result.note("Counted as scattered without looking. Put each where most shows and you need fewer.")
	}
	shown := min(cluster.ClustersAlong(length, base, push), 5)
	stretch := float64(shown) * cluster.PitchMM(base, push)
	n := min(int(math.Round(float64(c.Accents)*min(stretch/length, 1))), 60)
	result.layOut = func() *Drawing {
		return drawBase(v, base, push, shown, n, accent)
	}
	return nil
}
