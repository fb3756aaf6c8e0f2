package form_test

import (
	"testing"

	"garlandry/calc/measure"
	"garlandry/pwa/form"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestAWidthAndAHeightInOneField checks that a pair typed into either field fills both, and that the other field's text
// gives way.
func TestAWidthAndAHeightInOneField(t *testing.T) {
	rows := []struct {
		name, entity, width, height string
		units                       measure.System
		want                        map[string]string // field: JSON
		shown                       [2]string
	}{
		{"in the width", "piece/a", "3x2 m", "6 ft", measure.Imperial,
			map[string]string{"width_mm": "3000", "height_mm": "2000"}, [2]string{"3 m", "2 m"}},
		{"in the height", "piece/a", "", "3 m by 2 m", measure.Metric,
			map[string]string{"width_mm": "3000", "height_mm": "2000"}, [2]string{"3 m", "2 m"}},
		{"feet without a unit", "piece/a", "10'6\" x 8", "", measure.Imperial,
			map[string]string{"width_mm": "3200.4", "height_mm": "2438.4"}, [2]string{"10 ft 6 in", "8 ft"}},
		{"a frame of the kit", "kit/a", "2,4 x 2 m", "", measure.Metric,
			map[string]string{"width_mm": "2400", "height_mm": "2000"}, [2]string{"2.4 m", "2 m"}},
		{"two fields as ever", "piece/a", "3 m", "2 m", measure.Metric,
			map[string]string{"width_mm": "3000", "height_mm": "2000"}, [2]string{"3 m", "2 m"}},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			changes, state := form.Entity(noun(t, row.entity), row.entity, []string{"width_mm", "height_mm"},
				form.Values{"width_mm": {row.width}, "height_mm": {row.height}}, row.units)
			require.True(t, state.OK(), "%v", state.Errors)
			got := map[string]string{}
			for _, c := range changes {
				got[c.Field] = string(c.Value)
			}
			assert.Equal(t, row.want, got)
			assert.Equal(t, row.shown, [2]string{state.Get("width_mm"), state.Get("height_mm")})
		})
	}
}

// TestAPairThatCannotBeRead checks that the error stands at the field that holds the pair, which keeps its text.
func TestAPairThatCannotBeRead(t *testing.T) {
	rows := []struct{ name, typed, says string }{
		{"no height", "3 x", "the height is missing"},
		{"three lengths", "3x2x1 m", "more than two lengths"},
		{"an unknown unit", "3 x 2 parsec", "unknown unit parsec"},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			changes, state := form.Entity(noun(t, "piece/a"), "piece/a", []string{"width_mm", "height_mm"},
				form.Values{"width_mm": {row.typed}, "height_mm": {"2 m"}}, measure.Metric)
			assert.Empty(t, changes)
			assert.Contains(t, state.Errors["width_mm"], row.says)
			assert.Contains(t, state.Errors["width_mm"], "3 x 2 m")
			assert.Equal(t, row.typed, state.Get("width_mm"))
		})
	}
	_, state := form.Entity(noun(t, "piece/a"), "piece/a", []string{"length_mm"}, form.Values{"length_mm": {"3 x 2 m"}},
		measure.Metric)
	assert.Contains(t, state.Errors["length_mm"], "unknown unit x", "a length alone is not a width and a height")
}
