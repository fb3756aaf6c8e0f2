package calc

import (
	"garlandry/calc/cluster"
	"garlandry/calc/picture"
)

var matchCalculator = Calculator{
	Name: "match", Title: "Another size instead", Group: groupGarland,
	Purpose: "How many duplets of another size come nearest when a colour lacks a size",
	Inputs: []Input{
		recipeInput,
		{
			Key: "with", Label: "Size to use instead", Kind: KindRecipe, Required: true,
			Help:    "The size there is, and what it is sized to: 11@10. The number of duplets is worked out.",
			Example: "11@10",
		},
		{
			Key: "max_duplets", Label: "Most duplets", Kind: KindCount, Min: 1, Max: cluster.MaxDuplets, Default: "4",
			Help:    "As many as you can twist into one cluster. Four is usual.",
			Example: "4",
		},
	},
	Outputs: []Output{
		{"duplets", "Duplets", "Duplets of the other size in one cluster", KindCount, true},
		{"closes_pct", "Difference made up", "Share of the size difference that more duplets make up", KindPercent, false},
		{"ball_seen_mm", "This cluster, as seen", "How big the cluster of the other size looks", KindSmallLength, true},
		{"target_seen_mm", "Recipe's cluster, as seen", "How big the cluster of the recipe looks",
			KindSmallLength, true},
	},
	Example: Example{
		Story: "Reading room reopening: ink blue comes only in 11 inch, the recipe wants an 18-inch duplet",
		Inputs: []Entry{{Key: "recipe", Text: "2x11@10 + 1x18@16"}, {Key: "with", Text: "11@10"},
			{Key: "max_duplets", Text: "4"}},
		Expect: []Expectation{{Key: "duplets", Value: 4}, {Key: "closes_pct", Value: 55, Within: 15}},
	},
	Run: runMatch,
}

func runMatch(v Values, result *Result) error {
	target, with := v.Recipe("recipe"), v.Recipe("with")
	if len(with) != 1 {
		return v.refuse("with", "give one size, not "+with.String(), nil)
	}
	most := v.Count("max_duplets")
	m, err := cluster.MatchSize(target, with[0], most)
	if err != nil {
		return v.blame("with", err)
	}
	result.figures("ball_seen_mm target_seen_mm closes_pct",
		m.SeenMM, m.TargetMM, m.ClosesPct)
	result.counts("duplets",
		m.Duplets)
	result.use("rest", "spheres")
	result.useSizes(v, "recipe")
	result.useSizes(v, "with")
	result.useIf(v.assumed("max_duplets"), "duplets/most")
	result.step("Recipe", "a free cluster of "+target.String()+", as seen", "{small_length}", m.TargetMM)
	part := with[0]
	stands := cluster.Recipe{part}
	for n := 1; n <= most; n++ {
		part.Duplets = n
		result.step(v.say("{duplet|duplets}", float64(n)), "a free cluster of "+part.String()+", as seen",
			"{small_length}", cluster.BallSeenMM(cluster.Recipe{part}))
		if n == m.Duplets {
			stands = cluster.Recipe{part}
		}
	}
	result.step("Nearest", "of two as near, the fewer", "{0}", float64(m.Duplets))
	result.step("Difference made up", "compared with {duplet|duplets}", "{percent}", float64(target.Duplets()),
		m.ClosesPct)
	if m.Duplets == 1 && target.Duplets() > 1 {
		result.note("One duplet lies flat and is wide in one direction only: turn each against the next.")
	}
	if m.Duplets == most && m.SeenMM < m.TargetMM {
		result.note("It is smaller than the recipe's cluster. More duplets come nearer, if you can twist them.")
	}
	result.layOut = func() *Drawing { return drawMatch(v, target, stands, m) }
	return nil
}

func drawMatch(v Values, target, stands cluster.Recipe, m cluster.Match) *Drawing {
	s := v.sketch()
	wished, made := picture.Free(target), picture.Free(stands)
	left, right := picture.ExtentOf(wished), picture.ExtentOf(made)
	reach := left.RightMM - right.LeftMM + m.TargetMM*0.15
	s.balloons(RoleGhost, 0, 0, wished)
	s.balloons(RoleBalloon, reach, 0, made)
	level := min(left.BottomMM, right.BottomMM) - m.TargetMM*0.15
	s.dimension(-m.TargetMM/2, level, m.TargetMM/2, level, "{small_length}", m.TargetMM)
	s.dimension(reach-m.SeenMM/2, level, reach+m.SeenMM/2, level, "{small_length}", m.SeenMM)
	return s.drawing("The recipe's cluster and " + stands.String() + ", which replaces it")
}
