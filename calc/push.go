package calc

import (
	"strings"

	"garlandry/calc/cluster"
	"garlandry/calc/measure"
)

// MeasuredBase is a real base: how many clusters it took over a length.
type MeasuredBase struct {
	Clusters int
	LengthMM float64
}

var measuredMarks = [...]string{" in ", " over ", " per ", "/", ":", " on "}

// readMeasured reads "12 in 3.1m": the number of clusters, then the length.
func readMeasured(text string, bare measure.System) (any, error) {
	const want = "the clusters and the length they made, such as 12 in 3.1m"
	plain := trimmedLower(text)
	for _, mark := range measuredMarks {
		count, length, found := strings.Cut(plain, mark)
		if !found {
			continue
		}
		count = strings.TrimSuffix(strings.TrimSuffix(strings.TrimSpace(count), "clusters"), "quads")
		n, err := measure.ParseCount(count)
		if err != nil {
			return nil, err
		}
		mm, err := measure.ParseLengthMM(length, bare)
		if err != nil {
			return nil, err
		}
		if n < 1 || mm <= 0 {
			return nil, refuseList(text, want, "nothing was made")
		}
		return MeasuredBase{n, mm}, nil
	}
	return nil, refuseList(text, want, "")
}

// baseLengthInput asks for the length of a base.
var baseLengthInput = Input{
	Key:      "length",
	Label:    "Length of the base",
	Kind:     KindLength,
	Min:      50,
	Max:      500_000,
	Required: true,
	Help:     "Along the garland, not straight across. The outline calculator works it out for arches and hoops.",
	Example:  "10ft",
}

const helpRecipe = "The duplets (pairs tied neck to neck) in one cluster. 2x11@10 + 1x18@16 is two duplets of " +
	"11-inch balloons sized to 10 inches and one of 18-inch sized to 16. Without @ the usual size for décor counts."

// recipeInput asks for the recipe of a cluster.
var recipeInput = Input{
	Key: "recipe", Label: "Recipe of one cluster", Kind: KindRecipe, Required: true,
	Help:    helpRecipe,
	Example: "2x11@10 + 1x18@16",
}

// pushInput asks how hard the clusters are pushed together.
var pushInput = Input{
	Key:      "push",
	Label:    "How hard you push",
	Kind:     KindNumber,
	Min:      0.2,
	Max:      4,
	Advanced: true,
	Help:     "At the usual push, 1, quads of 9.5-inch balloons stand two to the foot. More packs them closer.",
	Example:  "1.2",
}

// measuredInput asks for a measured base, which gives the push.
var measuredInput = Input{
	Key:      "measured",
	Label:    "A base you made",
	Kind:     KindMeasured,
	Advanced: true,
	Help:     "Count the clusters of this recipe in a stretch you made, such as 12 in 3.1m. It replaces the usual push.",
	Example:  "12 in 3.1m",
}

// pushOf returns the push for the recipe: the usual one, the given number, or that of a measured base.
func (v Values) pushOf(r cluster.Recipe) (cluster.Push, error) {
	base, measured := v.given.items["measured"].(MeasuredBase)
	if measured && v.Has("push") {
		return cluster.Push{}, v.refuse("push", "give a push or a measured base, not both", nil)
	}
	if measured {
		push, err := v.given.model.MeasuredPush(r, base.LengthMM, base.Clusters)
		if err != nil {
			return push, v.blame("measured", err)
		}
		return push, nil
	}
	push := cluster.StandardPush()
	if v.Has("push") {
		push = cluster.Push{Relative: v.Number("push"), Source: cluster.SourceMeasured}
	}
	return push.By(v.given.model), nil
}

// pushOutput is the push in a result. pushed sets it.
var pushOutput = Output{"push", "Push", "How hard clusters are pushed together; 1 is usual", KindNumber, false}

// pushed adds the push and its source to the result, and a note if the figures of the recipe are an estimate.
func (r *Result) pushed(p cluster.Push, recipe cluster.Recipe) {
	r.estimated(p, recipe)
	r.figures("push", p.Relative)
	formula, source := "usual: quads of 9.5 in stand two to the foot", "push"
	if p.Source == cluster.SourceMeasured {
		formula, source = "your own, against the usual of 1", "push/own"
	}
	r.use(source)
	r.step("Push", formula, "{2} ("+p.Source+")", p.Relative)
}

// estimated names the model of a recipe's figures. It adds a note if they are an estimate, and says how to get better
// ones.
func (r *Result) estimated(p cluster.Push, recipe cluster.Recipe) {
	r.use("rest", "spheres")
	if !p.Estimates(recipe) {
		return
	}
	better := "make a metre of it, count the clusters and enter that as a base you made."
	if p.Working() {
		better = "look again in a moment; this recipe is still being worked out."
	}
	r.note("Estimated from two sizes, most within 15 %: " + better)
}

// useSizes names the table of sizes if a part of the recipe has no diameter of its own.
func (r *Result) useSizes(v Values, key string) {
	r.useIf(cluster.UsesUsualSizes(v.given.typed[key]), "size/decor")
}
