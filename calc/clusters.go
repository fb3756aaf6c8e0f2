package calc

import (
	"garlandry/calc/cluster"
	"garlandry/calc/latex"
)

var clustersCalculator = Calculator{
	Name: "clusters", Title: "Clusters for a length", Group: groupGarland,
	Purpose: "How many clusters, balloons and ties the base of a garland takes",
	Inputs: []Input{
		baseLengthInput,
		recipeInput,
		pushInput,
		measuredInput,
	},
	Outputs: []Output{
		{"clusters", "Clusters", "Clusters the base takes, rounded up", KindCount, true},
		{"balloons", "Balloons", "Balloons in all of them, without spares", KindCount, true},
		{"duplets", "Duplets", "Pairs to tie, two balloons each", KindCount, false},
		{"ties", "Ties", "Modelling balloons (260s) to join each cluster to the next", KindCount, false},
		{"pitch_mm", "Apart", "From the middle of one cluster to the middle of the next", KindSmallLength, false},
		{"per_m", "How close", "Clusters in a stretch of base", KindPerLength, false},
		{"width_mm", "Width, as seen", "From one edge of its outline to the other, as a mean along the base",
			KindSmallLength, false},
		{"widest_mm", "Widest", "The same at its thickest place, for doors and cars", KindSmallLength, false},
		{"coverage_pct", "Covered", "Share of the background hidden behind the base, seen from the front", KindPercent,
			false},
		{"ball_seen_mm", "Ball, as seen", "How big one cluster looks before it is joined", KindSmallLength, false},
		{"ball_mm", "Ball, widest", "The sphere that holds one cluster before it is joined", KindSmallLength, false},
		pushOutput,
	},
	Cautions: []string{latex.CautionChoking, latex.CautionAllergy, latex.CautionEyes},
	Example: Example{
		Story:  "Reading room reopening: the 10 ft beam at the usual eight balloons a foot",
		Inputs: []Entry{{Key: "length", Text: "10ft"}, {Key: "recipe", Text: "2x11@9.5"}},
		Expect: []Expectation{
			{Key: "clusters", Value: 20}, {Key: "balloons", Value: 80}, {Key: "pitch_mm", Value: 152.4, Within: 1.6},
		},
	},
	Run: runClusters,
}

func runClusters(v Values, result *Result) error {
	length, recipe := v.Number("length"), v.Recipe("recipe")
	push, err := v.pushOf(recipe)
	if err != nil {
		return err
	}
	shown := cluster.Measure(recipe, push)
	pitch, coverage := shown.PitchMM, shown.Coverage*100
	count := cluster.ClustersAlong(length, recipe, push)
	result.figures("pitch_mm per_m width_mm widest_mm coverage_pct ball_seen_mm ball_mm",
		pitch, 1000/pitch, shown.WidthMM, shown.WidestMM, coverage, shown.BallSeenMM, shown.BallMM)
	result.counts("clusters duplets balloons ties",
		count, count*recipe.Duplets(), count*recipe.Balloons(), count*recipe.Ties())
	result.pushed(push, recipe)
	result.useSizes(v, "recipe")
	result.use("ties/join")
	result.step("Apart", recipe.String()+" at rest on a string at that push", "{small_length}", pitch)
	result.step("Clusters", "{length} / {small_length}, rounded up once", "{0}", length, pitch, float64(count))
	result.step("Duplets", "{0} × {0}", "{0}", float64(count), float64(recipe.Duplets()), float64(count*recipe.Duplets()))
	result.step("Balloons", "2 × {0}", "{0}", float64(count*recipe.Duplets()), float64(count*recipe.Balloons()))
	for _, part := range recipe {
		n := 2 * part.Duplets * count
		result.step(whole(part.SizeIn)+"-inch", "{0} × 2 × {0}, sized to {2} in", "{0}", float64(count),
			float64(part.Duplets), part.ToIn, float64(n))
	}
	if recipe.Duplets() > cluster.CommonMaxDuplets {
		result.use("duplets/most")
		result.note("More than four duplets are hard to twist into one cluster; make two and twist those.")
	}
	if coverage < 90 {
		result.note("{percent} of the background shows through: push harder, or close the gaps with accents.", 100-coverage)
	}
	result.note("Spares are not included; the spares calculator adds them.")
	result.layOut = func() *Drawing {
		return drawBase(v, recipe, push, min(count, 5), 0, nil)
	}
	return nil
}
