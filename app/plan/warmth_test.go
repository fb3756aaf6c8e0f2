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
			map[string]any{"length_mm": 3000, "recipe": "2x11@10.1", "built": "home", "colours": shares("coral", 1.0)})
		changes = append(changes, job.Put("colour/coral", "sizes", []int{11}), job.Put("brief", "units", "metric"),
			job.Put("brief", "prep_c", prepC), job.Put("brief", "venue_c", venueC), job.Put("brief", "altitude_mm", altitudeMM))
		return asJSON(t, plan.Make(bringAll(made(changes...))).Notes)
	}
	result, err := heat.Compute(nil,
		map[string]string{"size": "11", "to": "10.1in", "fill_temp": "0C", "show_temp": "52C"}, measure.Metric)
	require.NoError(t, err)
	require.InDelta(t, 96, result.Number("fill_pct_at_show"), 1,
		"between the shares of the calculator and of burst ones")
	text := planned(0, 52, 0)
	assert.Contains(t, text, "grow to "+measure.FormatPercent(result.Number("fill_pct_at_show"))+" of full at the venue")
	assert.Contains(t, text,
		"Size them to "+measure.FormatSmallLength(result.Number("fill_to_mm"), measure.Metric)+" to be safe")
	assert.Contains(t, planned(20, 20, 2_500_000), "of full at the venue", "thin air lets them grow too")
	assert.NotContains(t, planned(40, 10, 0), "of full at the venue")
}

// TestTheSunWarmsMoreThanTheAir checks that balloons in the sun outdoors are taken to be warmer than the air, those
// filled on site too, and that what is advised stays below the warning.
func TestTheSunWarmsMoreThanTheAir(t *testing.T) {
	planned := func(where, sun, built, recipe string, more ...job.Change) string {
		changes := append(piece("base", "garland",
			map[string]any{"length_mm": 3000, "recipe": recipe, "built": built, "colours": shares("coral", 1.0)}),
			job.Put("colour/coral", "sizes", []int{11}), job.Put("brief", "units", "metric"),
			job.Put("brief", "place", where),
			job.Put("brief", "prep_c", 22), job.Put("brief", "venue_c", 30), job.Put("brief", "sun", sun))
		return asJSON(t, plan.Make(made(append(changes, more...)...)).Notes)
	}
	for _, built := range []string{"home", "site"} {
		assert.Contains(t, planned("outdoors", "sun", built, "2x11@10.5"), "of full at the venue in the sun", built)
		assert.NotContains(t, planned("outdoors", "shade", "site", "2x11@10.5"), "of full at the venue", built)
		assert.NotContains(t, planned("indoors", "sun", "site", "2x11@10.5"), "of full at the venue", built)
	}
	advised := planned("outdoors", "sun", "home", "2x11@10.5")
	assert.Contains(t, advised, "Size them to 25", "softer than 95 % of 27.9 cm after growing")
	assert.NotContains(t, planned("outdoors", "sun", "site", "2x11@10.5", job.Put("override/heat/sun", "value", 0)),
		"of full at the venue", "the figure rules")
}
