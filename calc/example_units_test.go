package calc_test

import (
	"testing"

	"garlandry/calc"
	"garlandry/calc/measure"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestExamplesFollowTheUnits checks examples and errors of every calculator in either system: no quantity is in a unit
// of the other one, and the worked example can be computed.
func TestExamplesFollowTheUnits(t *testing.T) {
	for _, c := range calc.All() {
		for _, s := range []measure.System{measure.Metric, measure.Imperial} {
			t.Run(c.Name+" "+string(s), func(t *testing.T) {
				example := c.ExampleIn(s)
				_, err := c.Compute(nil, example.Raw(), s)
				require.NoError(t, err, "%v", example.Inputs)
				assert.True(t, measure.Speaks(example.Story, s), example.Story)
				for _, in := range c.Inputs {
					if in.BareMetric && s == measure.Imperial {
						continue
					}
					assert.True(t, measure.Speaks(in.ExampleIn(s), s), in.ExampleIn(s))
					assert.True(t, measure.Speaks(example.Raw()[in.Key], s), example.Raw()[in.Key])
					_, err := c.Compute(nil, with(example.Raw(), map[string]string{in.Key: "??"}), s)
					if err != nil {
						assert.True(t, measure.Speaks(err.Error(), s), err.Error())
					}
				}
			})
		}
	}
}

func TestExamplesInUnits(t *testing.T) {
	wall, _ := calc.Find("wall")
	raw := wall.ExampleIn(measure.Metric).Raw()
	assert.Equal(t, "2.4 m", raw["width"])
	assert.Empty(t, wall.ExampleIn(measure.Metric).Story, "it tells of feet")
	assert.Equal(t, wall.Example, wall.ExampleIn(measure.Imperial))
	line, _ := calc.Find("line")
	strength, _ := line.Input("strength")
	assert.Equal(t, "9 kg", strength.ExampleIn(measure.Metric))
	_, err := wall.Compute(nil, map[string]string{"width": "far", "height": "2 m", "recipe": "2x11@10"}, measure.Metric)
	assert.ErrorContains(t, err, `; for example width="2.4 m"`)
	_, err = wall.Compute(nil, map[string]string{"width": "3 x", "height": "", "recipe": "2x11@10"}, measure.Imperial)
	assert.ErrorContains(t, err, "such as 10 ft x 8 ft;")
}
