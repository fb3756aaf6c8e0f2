package view_test

import (
	"testing"

	"garlandry/app/plan/figures"
	"garlandry/calc/measure"
	"garlandry/pwa/view"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestFiguresInFeet checks that people who use feet see pounds and miles per hour, with a range that can be typed.
func TestFiguresInFeet(t *testing.T) {
	for _, row := range []struct {
		figure                 figures.Figure
		metric, imperial, span string
	}{
		{figures.Figure{Unit: "N", Default: 90, Min: 5, Max: 5000}, "90", "20.2 lb", "1.2 lb to 1124 lb"},
		{figures.Figure{Unit: "kg", Default: 10, Min: 1, Max: 50}, "10", "22.05 lb", "2.31 lb to 110.23 lb"},
		{figures.Figure{Unit: "m/s", Default: 5, Min: 0, Max: 30}, "5", "11.2 mph", "0 mph to 67.1 mph"},
		{figures.Figure{Unit: "litres", Default: 240, Min: 20, Max: 2000}, "240", "240", "20 to 2000"},
	} {
		f := row.figure
		assert.Equal(t, row.metric, view.FigureText(f, f.Default, measure.Metric))
		assert.Equal(t, f.Unit, view.FigureUnit(f, measure.Metric))
		text := view.FigureText(f, f.Default, measure.Imperial)
		assert.Equal(t, row.imperial, text)
		assert.Equal(t, row.span, view.FigureRange(f, measure.Imperial))
		value, err := view.ReadFigure(f, text, measure.Imperial)
		require.NoError(t, err)
		assert.InDelta(t, f.Default, value, 0.005*f.Default)
	}
}
