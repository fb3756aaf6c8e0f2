package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/calc/latex"
	"garlandry/calc/measure"
)

// The plan uses the hours and growth that a builder measured, and says whose figures they are.
func TestOwnHoursAndGrowthAreUsed(t *testing.T) {
	floats := func(more ...job.Change) string {
		changes := append(piece("bunch", "bouquets", map[string]any{"count": 2, "each": 3, "size_in": 11, "to_in": 11,
			"gas": "helium", "colours": shares("coral", 1.0)}), more...)
		return asJSON(t, plan.Make(made(changes...)).Notes)
	}
	hours := compute(t, "lift",
		map[string]string{"size": "11", "to": "11in", "temp": "22C", "extra_g": "1.5"}).Number("float_h")
	assert.Contains(t, floats(),
		"float for about "+measure.FormatNumber(float64(int(hours)), 0)+" hours without gel (common practice scaled)")
	assert.Contains(t, floats(job.Put("override/float/own", "value", 3)),
		"float for about "+measure.FormatNumber(float64(int(3*hours)), 0)+" hours (measured by you)")

	warm := func(more ...job.Change) string {
		changes := append(piece("door", "garland",
			map[string]any{"length_mm": 3000, "recipe": "2x11@10", "colours": shares("coral", 1.0)}),
			job.Put("brief", "prep_c", 10), job.Put("brief", "venue_c", 55), job.Put("brief", "units", "metric"))
		return asJSON(t, plan.Make(bringAll(made(append(changes, more...)...))).Notes)
	}
	usual := map[string]string{"size": "11", "to": "10in", "fill_temp": "10C", "show_temp": "55C"}
	own := map[string]string{"growth": "2"}
	for key, text := range usual {
		own[key] = text
	}
	for name, row := range map[string]struct {
		text  string
		typed map[string]string
	}{"as usual": {warm(), usual}, "own": {warm(job.Put("override/heat/own", "value", 2)), own}} {
		result := compute(t, "heat", row.typed)
		require.Greater(t, result.Number("fill_pct_at_show"), 90.0)
		if result.Number("fill_pct_at_show") < latex.TooFullPct {
			assert.NotContains(t, row.text, "of full at the venue", name)
			continue
		}
		assert.Contains(t, row.text, measure.FormatPercent(result.Number("fill_pct_at_show"))+
			" of full at the venue. Size them to "+measure.FormatSmallLength(result.Number("fill_to_mm"), measure.Metric), name)
	}
	assert.Contains(t, warm(job.Put("override/heat/own", "value", 2)), "of full at the venue")
}
