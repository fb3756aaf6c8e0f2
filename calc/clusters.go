package calc

import (
	"garlandry/calc/cluster"
	"garlandry/calc/latex"
)

func clustersCalculator() Calculator {
	return Calculator{
		Name: "clusters", Title: "Clusters for a length", Group: groupGarland,
		Purpose: "How many clusters, balloons and ties the base of a garland takes",
		Inputs: append([]Input{
			baseLengthInput(),
			recipeInput(),
		}, pushInputs()...),
		Outputs: []Output{
			{"clusters", "Clusters", "Clusters the base takes, rounded up", KindCount, true},
			{"balloons", "Balloons", "Balloons in all of them, without spares", KindCount, true},
			{"duplets", "Duplets", "Pairs to tie, two balloons each", KindCount, false},
			{"ties", "Ties", "Modelling balloons (260s) to join each cluster to the next", KindCount, false},
			{"pitch_mm", "Apart", "From the middle of one cluster to the middle of the next", KindSmallLength, false},
			{"per_m", "Per metre", "Clusters in one metre of base", KindNumber, false},
			{"girth_mm", "Thick", "How thick the base looks", KindSmallLength, false},
			{"coverage_pct", "Covered", "Share of the background hidden behind the base, seen from the front", KindPercent, false},
			{"ball_mm", "Ball", "How big one cluster is before it is joined", KindSmallLength, false},
			pushOutput(),
		},
		Cautions: []string{latex.CautionChoking, latex.CautionAllergy, latex.CautionEyes},
		Sources: append(nestSources(),
			Source{"One tie joins a cluster to its neighbour: a 260, doubled, as a loop", MarkCommonPractice}),
		Example: Example{
			Story:  "Reading room reopening: eight balloons a foot, the rule the push is set by, over the 10 ft beam",
			Inputs: []Entry{{Key: "length", Text: "10ft"}, {Key: "recipe", Text: "2x11@9.5"}},
			Expect: []Expectation{
				{Key: "clusters", Value: 20}, {Key: "balloons", Value: 80}, {Key: "pitch_mm", Value: 152.4, Within: 1.6},
			},
		},
		Run: runClusters,
	}
}

func runClusters(v Values) (Result, error) {
	length, recipe := v.Number("length"), v.Recipe("recipe")
	push, err := v.pushOf(recipe)
	if err != nil {
		return Result{}, err
	}
	pitch := cluster.PitchMM(recipe, push)
	count := cluster.ClustersAlong(length, recipe, push)
	ball, girth := cluster.BallMM(recipe), cluster.GirthMM(recipe, push)
	coverage := cluster.Coverage(recipe, push) * 100
	result := Result{Outputs: map[string]any{}}
	result.figures("pitch_mm per_m girth_mm coverage_pct ball_mm",
		pitch, 1000/pitch, girth, coverage, ball)
	result.counts("clusters duplets balloons ties",
		count, count*recipe.Duplets(), count*recipe.Balloons(), count*recipe.Ties())
	result.pushed(push)
	result.step("Apart", "rest of "+recipe.String()+" on a string at that push", v.small(pitch))
	result.step("Clusters", v.length(length)+" / "+v.small(pitch)+", rounded up once", whole(count))
	result.step("Duplets", whole(count)+" × "+whole(recipe.Duplets()), whole(count*recipe.Duplets()))
	result.step("Balloons", "2 × "+whole(count*recipe.Duplets()), whole(count*recipe.Balloons()))
	for _, part := range recipe {
		n := 2 * part.Duplets * count
		result.step(whole(part.SizeIn)+"-inch", whole(count)+" × 2 × "+whole(part.Duplets)+", sized to "+number(part.ToIn, 2)+" in", whole(n))
	}
	if recipe.Duplets() > cluster.CommonMaxDuplets {
		result.note("More than four duplets are hard to twist into one cluster; make two and twist those.")
	}
	if recipe.Duplets() == 1 {
		result.note("One duplet a cluster makes a thin string that shows gaps; two or three are usual for a base.")
	}
	result.note("Spares are not in these figures; the spares calculator adds them.")
	result.layOut = func() *Drawing {
		return drawBase(v, recipe, push, min(count, 5), nil, nil)
	}
	return result, nil
}
