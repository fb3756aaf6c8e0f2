package view

import (
	"slices"
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan/look"
	"garlandry/calc/cluster"
	"garlandry/pwa/form"
)

// usualRecipes are those that most pieces are built of, by the field. Common practice, no source.
func usualRecipes(field string) []string {
	if field == "accent_recipe" {
		return []string{"2x5@4.5", "3x5@4.5"}
	}
	return []string{"2x11@9.5", "2x11@10", "3x11@10", "4x11@10", "2x11@10 + 1x18@16"}
}

// recipe draws a recipe to be tapped together, with its picture, and its text for those who like to write. See
// form/recipe.go for the names of its inputs.
func (f *Field) recipe() g.Node {
	name := f.name()
	recipe, err := cluster.ParseRecipe(f.typed())
	if err != nil {
		recipe, _ = cluster.ParseRecipe(f.at(name + form.RecipeDrawn)) // as before the text that cannot be read
	}
	drawn := recipe.String()
	return h.Div(h.Class("recipe"), h.ID(f.id()+"-builder"),
		h.P(h.B(g.Text(f.Label))),
		FieldGroup(f.id()+"-usual", g.Text("Usual"), "",
			Segments(g.Map(usualRecipes(f.Field.Name), func(usual string) g.Node {
				r, _ := cluster.ParseRecipe(usual) // one of ours
				return Segment("radio", name+form.RecipeUsual, usual, usual == drawn,
					clusterPicture(r, h.Aria("hidden", "true")), g.Text(recipeShort(r)))
			}))),
		FieldGroup(f.id()+"-sizes", g.Text("Balloon sizes, inches"), "",
			Segments(g.Map(job.Sizes[:], func(size int) g.Node {
				in := slices.ContainsFunc(recipe, func(p cluster.Part) bool { return p.SizeIn == size })
				return Segment("checkbox", name+form.RecipeSizes, strconv.Itoa(size), in, g.Text(strconv.Itoa(size)))
			}))),
		h.Div(h.Class("recipehead"), Cluster(recipe), h.P(g.Text(recipeWords(recipe)))), // beside the hand that changes it
		f.recipeParts(recipe),
		Hidden(name+form.RecipeShown, f.typed()),
		Hidden(name+form.RecipeDrawn, drawn),
		h.Details(h.Class("quietdetails"), h.ID(f.id()+"-text"), g.If(f.Error != "", g.Attr("open")),
			h.Summary(g.Text("Write it")),
			f.line(h.Input(f.common(), f.keyboard(), h.Value(f.typed())))))
}

// recipeParts draws two steppers for each size of a recipe: its duplets and what it is inflated to.
func (f *Field) recipeParts(recipe cluster.Recipe) g.Node {
	parts := make(g.Group, len(recipe))
	for i, p := range recipe {
		size := inches(p.SizeIn)
		step := func(part, value, label string, least, most int, by string) g.Node {
			key := form.Row(f.name(), i, part)
			return FieldBox(domID("f", key), label, "", Stepper(Step{ID: domID("f", key), Name: key, Value: value,
				Label: strings.ToLower(label) + ", " + size, Least: least, Most: most, By: by}))
		}
		parts[i] = h.Div(h.Class("recipepart"), h.ID(domID("part", form.Row(f.name(), i, ""))), h.B(g.Text(size)),
			Hidden(form.Row(f.name(), i, form.RecipeSize), strconv.Itoa(p.SizeIn)),
			step(form.RecipeCount, strconv.Itoa(p.Duplets), "Duplets", 0,
				cluster.MaxDuplets-recipe.Duplets()+p.Duplets, ""),
			step(form.RecipeTo, strconv.FormatFloat(p.ToIn, 'f', -1, 64), "Sized to, inches", 2, p.SizeIn, "0.5"))
	}
	return parts
}

// recipeShort writes a recipe in balloons, for a button: "4 × 11 in + 2 × 18 in".
func recipeShort(r cluster.Recipe) string {
	parts := make([]string, len(r))
	for i, p := range r {
		parts[i] = strconv.Itoa(2*p.Duplets) + " × " + strconv.Itoa(p.SizeIn) + " at " +
			strconv.FormatFloat(p.ToIn, 'f', -1, 64)
	}
	return strings.Join(parts, " + ")
}

// Cluster draws one cluster of a recipe from the front, as its balloons come to rest. It is empty for a recipe that
// nobody can build.
func Cluster(r cluster.Recipe) g.Node {
	return clusterPicture(r, g.Group{h.Role("img"), h.Aria("label", "A cluster of "+recipeWords(r))})
}

func clusterPicture(r cluster.Recipe, says g.Node) g.Node {
	return g.Iff(len(r) > 0, func() g.Node {
		return oneCluster("cluster", look.Free(r), cluster.BallMM(r)/2, says, nil,
			func(int) job.Colour { return sand() })
	})
}
