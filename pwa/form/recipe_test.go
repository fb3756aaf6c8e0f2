package form_test

import (
	"strings"
	"testing"

	"garlandry/calc/measure"
	"garlandry/pwa/form"

	"github.com/stretchr/testify/assert"
)

// TestARecipeIsTappedTogether checks what a form with a builder means: what was tapped counts, unless the text was
// edited.
func TestARecipeIsTappedTogether(t *testing.T) {
	rows := []struct {
		name  string
		alter form.Values
		want  string // the recipe; empty: unchanged
	}{
		{"nothing touched", nil, ""},
		{"one duplet more", form.Values{"recipe.0.count": {"3"}}, `"3x11@10 + 1x18@16"`},
		{"inflated less", form.Values{"recipe.1.to": {"15.5"}}, `"2x11@10 + 1x18@15.5"`},
		{"no duplets", form.Values{"recipe.1.count": {"0"}}, `"2x11@10"`},
		{"a size untapped", form.Values{"recipe.sizes": {"11"}}, `"2x11@10"`},
		{"a size tapped", form.Values{"recipe.sizes": {"5", "11", "18"}}, `"1x5@4.5 + 2x11@10 + 1x18@16"`},
		{"a usual one", form.Values{"recipe.usual": {"3x11@10"}}, `"3x11@10"`},
		{"the usual one that it was", form.Values{"recipe.usual": {"2x11@10 + 1x18@16"}, "recipe.0.count": {"1"}},
			`"1x11@10 + 1x18@16"`},
		{"the text edited", form.Values{"recipe": {"4x11"}, "recipe.0.count": {"3"}}, `"4x11@10"`},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			v := form.Values{"recipe": {"2x11@10 + 1x18@16"}, "was.recipe": {"2x11@10 + 1x18@16"},
				"recipe.shown": {"2x11@10 + 1x18@16"}, "recipe.drawn": {"2x11@10 + 1x18@16"},
				"recipe.sizes": {"11", "18"}, "recipe.0.size": {"11"}, "recipe.0.count": {"2"}, "recipe.0.to": {"10"},
				"recipe.1.size": {"18"}, "recipe.1.count": {"1"}, "recipe.1.to": {"16"}}
			for name, list := range row.alter {
				v[name] = list
			}
			changes, state := form.Entity(noun(t, "piece/a"), "piece/a", []string{"recipe"}, v, measure.Metric)
			assert.True(t, state.OK(), "%v", state.Errors)
			got := ""
			for _, c := range changes {
				got = string(c.Value)
			}
			assert.Equal(t, row.want, got)
			if row.want != "" && row.alter.Get("recipe") == "" {
				assert.Equal(t, strings.Trim(row.want, `"`), state.Get("recipe"), "the text is in step")
			}
		})
	}
}
