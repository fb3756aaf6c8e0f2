package calc_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc"
	"garlandry/calc/measure"
)

// TestWidthAndHeightInOneInput checks that a calculator takes both from either of its inputs, and computes as if they
// had been typed apart.
func TestWidthAndHeightInOneInput(t *testing.T) {
	rows := []struct {
		name, calculator, key, text, width, height string
		more                                       [2]string
	}{
		{"a wall", "wall", "width", "3x2 m", "3 m", "2 m", [2]string{"recipe", "2x11@9.5"}},
		{"a wall, in its height", "wall", "height", "10ft x 8ft", "10 ft", "8 ft", [2]string{"recipe", "2x11@9.5"}},
		{"an arch", "outline", "width", "2,4 by 2,2 m", "2.4 m", "2.2 m", [2]string{"shape", "arch"}},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			c, known := calc.Find(row.calculator)
			require.True(t, known)
			more := row.more[0]
			once, err := c.Compute(nil, map[string]string{row.key: row.text, more: row.more[1]}, measure.Imperial)
			require.NoError(t, err)
			apart := map[string]string{"width": row.width, "height": row.height, more: row.more[1]}
			twice, err := c.Compute(nil, apart, measure.Imperial)
			require.NoError(t, err)
			assert.Equal(t, twice.Outputs, once.Outputs)
		})
	}
	wall, _ := calc.Find("wall")
	_, err := wall.Compute(nil, map[string]string{"width": "3 x", "recipe": "2x11@9.5"}, measure.Metric)
	require.ErrorContains(t, err, "width: ")
	assert.ErrorContains(t, err, "the height is missing")
	clusters, _ := calc.Find("clusters")
	_, err = clusters.Compute(nil, map[string]string{"length": "3 x 2 m"}, measure.Metric)
	assert.ErrorContains(t, err, "unknown unit x", "it has one length")
}
