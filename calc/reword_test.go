package calc_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc"
	"garlandry/calc/measure"
)

// TestErrorsAreInTheReadersUnits checks that errors of packages, in millimetres and grams, are converted to the
// reader's units.
func TestErrorsAreInTheReadersUnits(t *testing.T) {
	for _, row := range []struct {
		name, calculator string
		typed            map[string]string
		metric, imperial string
	}{
		{"a base that no push makes", "clusters", map[string]string{"length": "3m", "recipe": "2x11@9.5",
			"measured": "12 in 9.144m"},
			"12 clusters of 2x11@9.5 over 9.14 m are 76.2 cm apart", "12 clusters of 2x11@9.5 over 30 ft are 30 in apart"},
		{"a section as thin as a finger", "car", map[string]string{"cargo": "1.5 x 1 x 0.005 m", "clusters": "3"},
			"sides of 1 cm to 20 m", "sides of 0.4 in to 65 ft"},
		{"a bench test without a difference", "dip", map[string]string{"span": "2.4m", "loads": "sign 1kg",
			"test_weight": "1kg", "test_dip": "18mm", "test_stays": "18mm"},
			"(1.8 cm)", "(0.7 in)"},
		{"a load beyond all", "dip", map[string]string{"span": "2.4m", "loads": "sign 2000kg", "test_weight": "1kg",
			"test_dip": "18mm"}, "at most 500 kg", "at most 1102.31 lb"},
	} {
		t.Run(row.name, func(t *testing.T) {
			c, known := calc.Find(row.calculator)
			require.True(t, known)
			for system, want := range map[measure.System]string{measure.Metric: row.metric, measure.Imperial: row.imperial} {
				_, err := c.Compute(nil, row.typed, system)
				require.Error(t, err)
				assert.Contains(t, err.Error(), want)
			}
		})
	}
}

func TestBallastIsWhatOneCanCarry(t *testing.T) {
	c, _ := calc.Find("tip")
	result, err := c.Compute(nil, c.Example.Raw(), measure.Imperial)
	require.NoError(t, err)
	out, _ := outputOf(c, "ballast_kg")
	assert.Equal(t, "370 lb", out.Format(result.Outputs["ballast_kg"], measure.Imperial), "166 kg are 365.97 lb")
	assert.Contains(t, result.Notes[0], "Add at least 370 lb,")
}
