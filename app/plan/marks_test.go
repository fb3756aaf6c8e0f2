package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/plan"
	"garlandry/app/plan/figures"
	"garlandry/calc"
	"garlandry/calc/measure"
)

// TestOnlyPublishedFormulasAreCalledPublished checks the marks of the maths of pieces and cards: of all lines only
// lengths along a curve come from a publication, a textbook's geometry. A typed length and a sum do not.
func TestOnlyPublishedFormulasAreCalledPublished(t *testing.T) {
	for _, name := range goldenJobs() {
		p := plan.Make(readJob(t, name))
		var lines []figures.Line
		for _, c := range p.Pieces {
			lines = append(lines, c.Working...)
		}
		for _, c := range p.Cards {
			lines = append(lines, c.Working...)
		}
		for _, line := range lines {
			curve := line.What == "Length" && line.How != "the length you typed"
			assert.Equal(t, curve, line.Source.Mark == figures.Published, "%s: %v", name, line)
		}
	}
}

// TestFiguresHaveTheMarksOfTheCalculators checks that a figure of the plan and the same figure of a calculator have one
// mark: nobody should trust it more on one page than on the other.
func TestFiguresHaveTheMarksOfTheCalculators(t *testing.T) {
	marks := map[string]string{}
	for _, source := range calc.Sources(measure.Metric) {
		marks[source.Text] = source.Mark
	}
	all := map[string]figures.Figure{}
	for _, f := range figures.All() {
		all[f.Key] = f
	}
	for key, begins := range map[string]string{
		"base/push":          "The push: ",
		"base/most-duplets":  "4 duplets are the most",
		"ties/join":          "One tie joins",
		"ties/accent":        "0.5 of a 260",
		"ties/column":        "Layers are wound",
		"wall/nest":          "Strings side by side",
		"car/packing":        "Soft clusters and sections fill 0.55",
		"bar/visible":        "A dip of the span / 100",
		"bar/useless":        "A dip of the span / 50",
		"breakage/practised": "Breakage of 2 to 3 %",
		"breakage/beginner":  "Breakage of 2 to 3 %",
		"rubber/11":          "Mass of one empty",
	} {
		f, known := all[key]
		require.True(t, known, key)
		found := 0
		for text, mark := range marks {
			if strings.HasPrefix(text, begins) {
				found++
				assert.Equal(t, mark, string(f.Source.Mark), key)
			}
		}
		assert.Equal(t, 1, found, "%s: %q", key, begins)
	}
}
