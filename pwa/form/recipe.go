package form

import (
	"slices"
	"strings"

	"garlandry/app/job"
	"garlandry/calc/cluster"
)

// Inputs of the builder beside the text of a recipe, after the field's name. RecipeShown holds the text as it was drawn
// and RecipeDrawn what the builder then stood for. Parts are numbered: field.N.size, field.N.count, field.N.to.
const (
	RecipeShown = ".shown"
	RecipeDrawn = ".drawn"
	RecipeUsual = ".usual" // a usual recipe
	RecipeSizes = ".sizes" // each size that is in it
	RecipeSize  = "size"
	RecipeCount = "count"
	RecipeTo    = "to"
)

// built returns the form with the recipes that were made by tapping as text. A text that was edited wins.
func built(n *job.Noun, fields []string, v Values) Values {
	cloned := false
	for _, name := range fields {
		f, known := n.Field(name)
		if !known || f.Kind != job.Recipe || !v.Has(name+RecipeShown) || v.Get(name) != v.Get(name+RecipeShown) {
			continue
		}
		drawn, text := v.Get(name+RecipeDrawn), tapped(name, v)
		if usual := v.Get(name + RecipeUsual); usual != "" && usual != drawn {
			text = usual
		}
		if text == drawn {
			continue
		}
		if !cloned {
			v, cloned = v.Clone(), true
		}
		if recipe, err := cluster.ParseRecipe(text); err == nil {
			text = recipe.String() // with the usual sizes of what was just tapped
		}
		v.Set(name, text)
	}
	return v
}

// tapped writes the recipe that the builder stands for: the parts whose size is still ticked, and one duplet of each
// size that was ticked since.
func tapped(name string, v Values) string {
	var parts, there []string
	sizes := v[name+RecipeSizes]
	for row := range MaxRows {
		size := v.Get(Row(name, row, RecipeSize))
		if size == "" {
			break
		}
		there = append(there, size)
		count := clean(v.Get(Row(name, row, RecipeCount)), false)
		if !slices.Contains(sizes, size) || count == "" || count == "0" {
			continue
		}
		part := count + "x" + size
		if to := clean(v.Get(Row(name, row, RecipeTo)), false); to != "" {
			part += "@" + to
		}
		parts = append(parts, part)
	}
	for _, size := range sizes {
		if !slices.Contains(there, size) {
			parts = append(parts, "1x"+size)
		}
	}
	return strings.Join(parts, " + ")
}
