package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/calc/measure"
)

func TestAccentsUntilHidden(t *testing.T) {
	of := func(fields map[string]any) count.PieceCount {
		fields["length_mm"], fields["recipe"], fields["colours"] = 3000, "2x11@10", shares("coral", 1.0)
		return only(t, plan.Make(made(piece("door", "garland", fields)...)))
	}
	want := compute(t, "accents",
		map[string]string{"length": "3m", "recipe": "2x11@10", "accent": "2x5@4.5", "coverage": "98%"})
	c := of(map[string]any{"accent_cover_pct": 98})
	assert.EqualValues(t, want.Outputs["accents"], c.Accents)
	assert.Greater(t, c.Accents, 5)
	shown := ""
	for _, l := range c.Working {
		if l.What == "Background hidden" {
			shown = l.Result
		}
	}
	assert.Equal(t, measure.FormatPercent(want.Number("coverage_after_pct")), shown)
	assert.Equal(t, 3, of(map[string]any{"accent_cover_pct": 98, "accents": 3}).Accents, "a typed number counts")
	assert.Equal(t, 5, of(map[string]any{}).Accents, "one for every two feet")
	assert.LessOrEqual(t,
		of(map[string]any{"accent_cover_pct": 99.5, "accent_recipe": "1x5@2", "length_mm": 500000}).Accents, 2000)
	assert.Zero(t, of(map[string]any{"accent_cover_pct": 1}).Accents, "the base alone hides that")
}
