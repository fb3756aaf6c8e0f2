package calc_test

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"garlandry/calc"
	"garlandry/calc/cluster"
)

// expectedSources says for every source how its text begins, how far it can be trusted, and which inputs call for it.
// It is written from the inputs alone, apart from the calculators. A mark is "published" only if the text names the
// publication or a textbook's formula and the figure stands there.
var expectedSources = []struct {
	begins, mark string
	when         func(c call) bool
}{
	{"Balloons come to rest by FIRE", calc.MarkPublished, modelled},
	{"Balloons as soft spheres", calc.MarkFromMemory, modelled},
	{"The push: ", calc.MarkCommonPractice, func(c call) bool {
		return c.is("clusters", "accents", "column", "wall") && !c.has("push", "measured") ||
			c.is("car") && (!c.has("section_thick") || recipeSections(c))
	}},
	{"Your own push", calc.MarkMeasured, func(c call) bool { return c.has("push", "measured") && !c.is("tip") }},
	{"One tie joins", calc.MarkCommonPractice, func(c call) bool { return c.is("clusters", "wall") }},
	{"0.5 of a 260", calc.MarkCommonPractice, func(c call) bool { return c.is("accents") }},
	{"Scattered discs", calc.MarkFromMemory, func(c call) bool { return c.is("accents") }},
	{"Accents of two duplets", calc.MarkCommonPractice, func(c call) bool {
		return c.is("accents") && !c.has("accent")
	}},
	{"4 duplets are the most", calc.MarkCommonPractice, func(c call) bool {
		return c.is("match") && !c.has("max_duplets") ||
			c.is("clusters") && c.result.Number("duplets") > 4*c.result.Number("clusters")
	}},
	{"Straight parts and arcs", calc.MarkPublished, func(c call) bool {
		return shape(c) == "hoop" || shape(c) == "arc" || shape(c) == "arch" && !lowArch(c)
	}},
	{"Ellipse:", calc.MarkPublished, func(c call) bool { return shape(c) == "ellipse" || lowArch(c) }},
	{"Catenary:", calc.MarkPublished, func(c call) bool { return shape(c) == "catenary" }},
	{"Parabola:", calc.MarkPublished, func(c call) bool { return shape(c) == "parabola" }},
	{"Free curve:", calc.MarkPublished, func(c call) bool { return shape(c) == "curve" }},
	{"A long base", calc.MarkCommonPractice, func(c call) bool { return c.is("outline") && c.has("section_max") }},
	{"Layers are wound", calc.MarkFromMemory, func(c call) bool { return c.is("column") }},
	{"Strings side by side", calc.MarkFromMemory, func(c call) bool { return spaced(c) && !crowded(c) }},
	{"Balloons fill at most 0.64", calc.MarkPublished, func(c call) bool { return spaced(c) && crowded(c) }},
	{"Full diameter", calc.MarkCommonPractice, func(c call) bool { return len(gasIn(c)) > 0 }},
	{"Usual diameter", calc.MarkCommonPractice, func(c call) bool {
		return c.is("size", "heat", "lift") && !c.has("to") || c.bare("recipe") && usesRecipe(c) || c.bare("with") ||
			c.bare("accent") || c.bare("balloons")
	}},
	{"Gas in a full balloon: helium charts", calc.MarkCommonPractice, func(c call) bool {
		return slices.ContainsFunc(gasIn(c), func(b inflated) bool { return b.pear && charted(b.sizeIn) })
	}},
	{"Gas in a full 5-", calc.MarkFromMemory, func(c call) bool {
		return slices.ContainsFunc(gasIn(c), func(b inflated) bool { return b.pear && !charted(b.sizeIn) })
	}},
	{"A balloon is a sphere", calc.MarkFromMemory, func(c call) bool { return len(gasIn(c)) > 0 }},
	{"How much gas yours", calc.MarkMeasured, func(c call) bool { return c.is("lift") && says(c, calc.StepGas) }},
	{"Mass of one empty", calc.MarkCommonPractice, func(c call) bool { return oneBalloon(c) && !c.has("latex_g") }},
	{"Mass of your own", calc.MarkMeasured, func(c call) bool { return oneBalloon(c) && c.has("latex_g") }},
	{"Thin sphere", calc.MarkPublished, oneBalloon},
	{"The rubber's two constants", calc.MarkFromMemory, oneBalloon},
	{"Gas law", calc.MarkPublished, func(c call) bool { return c.is("heat") }},
	{"How much yours grow", calc.MarkMeasured, func(c call) bool { return c.is("heat") && says(c, calc.StepGrowth) }},
	{"Standard atmosphere", calc.MarkPublished, func(c call) bool { return c.is("heat", "lift") }},
	{"Moist air", calc.MarkPublished, func(c call) bool { return c.is("lift") }},
	{"Helium's molar mass", calc.MarkFromMemory, func(c call) bool { return c.is("lift") }},
	{"Cylinders are rated", calc.MarkFromMemory, func(c call) bool { return c.has("cylinder_gas") }},
	{"Float time: a plain full 11-inch floats 12 to 18 hours", calc.MarkScaled, guessedFloat},
	{"Warm rubber leaks", calc.MarkFromMemory, guessedFloat},
	{"How long yours floated", calc.MarkMeasured, func(c call) bool { return c.has("floated") }},
	{"The weight at the end", calc.MarkCommonPractice, func(c call) bool { return c.result.Number("ballast_g") > 0 }},
	{"Quantile", calc.MarkPublished, func(c call) bool { return c.is("spares") }},
	{"Breakage", calc.MarkCommonPractice, func(c call) bool { return c.is("spares") && !c.has("fail") }},
	{"Largest remainder", calc.MarkPublished, func(c call) bool { return c.is("split") }},
	{"No colour is left out", calc.MarkCommonPractice, func(c call) bool { return c.is("split") }},
	{"Least cost", calc.MarkPublished, func(c call) bool { return c.is("bags") }},
	{"Elastic beam", calc.MarkPublished, func(c call) bool { return c.is("dip") }},
	{"Your bench test", calc.MarkMeasured, func(c call) bool { return c.has("test_weight", "test_dip") }},
	{"Stress that bends", calc.MarkFromMemory, func(c call) bool { return c.has("tube_outer") }},
	{"Stiffness of steel: EN 1993-1-1", calc.MarkPublished, func(c call) bool { return tube(c, "steel") }},
	{"Stiffness of aluminium: EN 1999-1-1", calc.MarkPublished, func(c call) bool { return tube(c, "aluminium") }},
	{"Stiffness of wood", calc.MarkFromMemory, func(c call) bool { return tube(c, "wood") }},
	{"Stiffness of pvc", calc.MarkFromMemory, func(c call) bool { return tube(c, "pvc") }},
	{"Plastic sinks", calc.MarkFromMemory, func(c call) bool { return tube(c, "pvc") }},
	{"A dip of the span / 100", calc.MarkCommonPractice, func(c call) bool { return c.is("dip") && !c.has("visible") }},
	{"A dip of the span / 50", calc.MarkCommonPractice, func(c call) bool { return c.is("dip") && !c.has("useless") }},
	{"Wind pressure ½ ρ v², ρ = 1.25", calc.MarkPublished, windy},
	{"Drag, the greater of two codes: 1.8 for signboards", calc.MarkPublished, windy},
	{"Drag of a part-open face", calc.MarkPublished, func(c call) bool { return windy(c) && partOpen(c) }},
	{"Gusts are 1.5 times", calc.MarkFromMemory, windy},
	{"No light décor stands in gusts over 10.7 m/s", calc.MarkFromMemory, windy},
	{"Act at 60 % and 80 %", calc.MarkPublished, windy},
	{"Factor 1.5 against", calc.MarkFromMemory, func(c call) bool { return c.is("tip") && !c.has("factor") }},
	{"Friction of wood feet on concrete: Pallett", calc.MarkPublished, on("wood feet on concrete")},
	{"Friction of rubber feet on a dry floor", calc.MarkFromMemory, on("rubber feet on a dry floor")},
	{"Friction of concrete weights on concrete: Pallett", calc.MarkPublished, on("concrete weights on concrete")},
	{"Friction of carpet", calc.MarkFromMemory, on("carpet")},
	{"Friction of grass", calc.MarkFromMemory, on("grass")},
	{"Friction of steel feet on concrete: EN 12812", calc.MarkPublished, on("steel feet on concrete")},
	{"Friction of polished floor", calc.MarkFromMemory, on("polished floor")},
	{"Friction of steel feet on smooth cast concrete: Pallett", calc.MarkPublished,
		on("steel feet on smooth cast concrete")},
	{"Pull in leaning lines", calc.MarkPublished, func(c call) bool { return c.is("line") }},
	{"Knots keep", calc.MarkFromMemory, func(c call) bool { return c.is("line") && !c.has("knot") && judged(c) }},
	{"Safety factor 5 to 12", calc.MarkFromMemory, func(c call) bool {
		return c.is("line") && !c.has("factor") && judged(c)
	}},
	{"Of three or more lines", calc.MarkFromMemory, func(c call) bool { return says(c, "Worst line") && many(c) }},
	{"Balls poured in at random", calc.MarkPublished, func(c call) bool { return soft(c) || loads(c, "balloon") }},
	{"Litres of a car", calc.MarkPublished, func(c call) bool { return c.has("litres") }},
	{"Shape of a loading space", calc.MarkFromMemory, func(c call) bool { return c.is("car") && !c.has("cargo") }},
	{"Soft clusters and sections fill 0.55", calc.MarkFromMemory, func(c call) bool {
		return soft(c) && !c.has("packing")
	}},
	{"A section bends", calc.MarkCommonPractice, func(c call) bool { return c.is("car") }},
	{"Soft work gives 10 %", calc.MarkCommonPractice, func(c call) bool { return c.is("car") && !c.has("squeeze") }},
}

func modelled(c call) bool {
	return c.is("clusters", "accents", "match", "column", "wall") || c.is("car") && usesRecipe(c)
}

// usesRecipe reports whether the recipe matters: in a car only for loose clusters, for a thickness not given, and for
// the air in sections if it was given.
func usesRecipe(c call) bool {
	return !c.is("car") || loads(c, "cluster") || !c.has("section_thick") || recipeSections(c)
}

// recipeSections reports whether a car carries sections of a recipe that was typed.
func recipeSections(c call) bool { return loads(c, "section") && c.has("recipe") }

func shape(c call) string {
	for _, kind := range []string{"arch", "arc", "catenary", "hoop", "ellipse", "parabola", "curve"} {
		if c.typed["shape"] == kind {
			return kind
		}
	}
	return ""
}

func lowArch(c call) bool {
	return shape(c) == "arch" && strings.HasPrefix(c.result.Working[0].Formula, "half an ellipse")
}

func spaced(c call) bool { return c.is("wall") && !c.has("columns_apart") }

func crowded(c call) bool {
	for _, line := range c.result.Working {
		if line.Label == "Columns apart" {
			return line.Formula == "as balloons of these sizes pack"
		}
	}
	return false
}

func oneBalloon(c call) bool { return c.is("size", "heat", "lift") }

// charted reports whether the size is on the helium charts.
func charted(sizeIn int) bool { return slices.Contains([]int{9, 11, 12, 16, 36}, sizeIn) }

// inflated is a balloon whose gas counts. It is a pear over 85 % of its full diameter, which is its size.
type inflated struct {
	sizeIn int
	pear   bool
}

// gasIn lists the balloons of a call whose gas counts.
func gasIn(c call) (list []inflated) {
	add := func(recipe string) {
		r, _ := cluster.ParseRecipe(recipe)
		for _, part := range r {
			list = append(list, inflated{part.SizeIn, part.ToIn > 0.85*float64(part.SizeIn)})
		}
	}
	if oneBalloon(c) {
		size, _ := strconv.Atoi(strings.TrimRight(c.typed["size"], " in\""))
		largest := max(c.result.Number("diameter_mm"), c.result.Number("show_diameter_mm"),
			c.result.Number("fill_to_mm"))
		pear := largest > 0.85*25.4*float64(size)
		for _, line := range c.result.Working {
			pear = pear || c.is("lift") && strings.Contains(line.Formula, "for the shape")
		}
		list = append(list, inflated{size, pear})
	}
	if soft(c) {
		add(cmp.Or(c.typed["recipe"], "2x11@10 + 1x18@16"))
	}
	if loads(c, "balloon") {
		for _, loose := range strings.Split(c.typed["balloons"], ",") {
			_, kind, _ := strings.Cut(loose, "x")
			add("1x" + strings.TrimSpace(kind))
		}
	}
	return list
}

// says reports whether the working has a step.
func says(c call, label string) bool {
	for _, line := range c.result.Working {
		if line.Label == label {
			return true
		}
	}
	return false
}

func guessedFloat(c call) bool {
	return c.is("lift") && !c.has("floated") && c.result.Number("float_h") > 0
}

func tube(c call, material string) bool {
	named := c.typed["material"]
	return c.has("tube_outer") && (named == material || material == "steel" && named == "")
}

func windy(c call) bool { return c.result.Number("wind_n") > 0 }

func partOpen(c call) bool {
	return c.has("solidity") && c.typed["solidity"] != "100 %" && strings.TrimSpace(c.typed["solidity"]) != "1"
}

func on(ground string) func(c call) bool {
	return func(c call) bool {
		return c.is("tip") && (c.typed["ground"] == ground || !c.has("ground") &&
			ground == "rubber feet on a dry floor")
	}
}

func judged(c call) bool { return c.result.Outputs["verdict"] != "no verdict" }

func many(c call) bool {
	points := strings.TrimSpace(c.typed["points"])
	return points != "" && points != "1" && points != "2" && points != "0"
}

// loads reports whether a share of the load has that name, or was refused under it.
func loads(c call, name string) bool {
	key := map[string]string{"cluster": "clusters", "balloon": "balloons", "section": "sections"}[name]
	typed := strings.TrimSpace(c.typed[key])
	return c.is("car") && typed != "" && typed != "0"
}

// soft reports whether something needs the room of its balloons only.
func soft(c call) bool {
	return loads(c, "cluster") || loads(c, "section") && (!c.has("section_thick") || recipeSections(c))
}
