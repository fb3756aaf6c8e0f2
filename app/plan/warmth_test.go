package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/calc"
	"garlandry/calc/measure"
)

// The plan warns as the calculator does of balloons that are filled cool and shown warm or high up.
func TestWarmthAsInTheCalculator(t *testing.T) {
	heat, _ := calc.Find("heat")
	planned := func(prepC, venueC, altitudeMM float64) string {
		changes := piece("base", "garland",
			map[string]any{"length_mm": 3000, "recipe": "2x11@10.5", "built": "home", "colours": shares("coral", 1.0)})
		changes = append(changes, job.Put("colour/coral", "sizes", []int{11}), job.Put("brief", "units", "metric"),
			job.Put("brief", "prep_c", prepC), job.Put("brief", "venue_c", venueC), job.Put("brief", "altitude_mm", altitudeMM))
		return asJSON(t, plan.Make(made(changes...)).Notes)
	}
	result, err := heat.Compute(nil, map[string]string{"size": "11", "to": "10.5", "fill_temp": "10C", "show_temp": "40C"},
		measure.Metric)
	require.NoError(t, err)
	text := planned(10, 40, 0)
	assert.Contains(t, text, "grow to "+measure.FormatPercent(result.Number("fill_pct_at_show"))+" of full at the venue")
	assert.Contains(t, text,
		"Size them to "+measure.FormatSmallLength(result.Number("fill_to_mm"), measure.Metric)+" to be safe")
	assert.Contains(t, planned(20, 20, 1_500_000), "of full at the venue", "thin air lets them grow too")
	assert.NotContains(t, planned(40, 10, 0), "of full at the venue")
}
