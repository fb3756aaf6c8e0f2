package calc_test

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc"
	"garlandry/calc/measure"
)

var (
	metricFigure   = regexp.MustCompile(`\d (m/s|km/h|kg|g|mm|cm|m|°C|l|litres)\b`)
	imperialFigure = regexp.MustCompile(`\d (mph|lb|oz|ft|°F|gal)\b`)
)

// TestNotesAreInTheReadersUnits checks the units of notes, which are read first, so that nobody takes 8 m/s for 8 mph.
func TestNotesAreInTheReadersUnits(t *testing.T) {
	cases := map[string][]map[string]string{
		"tip": {
			{"width": "2m", "height": "2m", "weight": "20kg", "base_depth": "1m", "wind": "12 m/s"},
			{"width": "2m", "height": "2m", "weight": "20kg", "base_depth": "1m", "wind": "6 m/s",
				"push": "300 N", "push_at": "1.5m"},
			{"width": "2m", "height": "2m", "weight": "90kg", "base_depth": "1m", "wind": "3 m/s"},
		},
		"car":  {{"litres": "900 l", "sections": "2", "section_length": "6m"}},
		"wall": {{"width": "2m", "height": "2m", "recipe": "2x11@10 + 1x18@16"}},
	}
	for _, c := range calc.All() {
		for _, raw := range append(cases[c.Name], c.Example.Raw()) {
			for system, other := range map[measure.System]*regexp.Regexp{measure.Imperial: metricFigure,
				measure.Metric: imperialFigure} {
				result, err := c.Compute(nil, raw, system)
				require.NoError(t, err, c.Name)
				for _, note := range result.Notes {
					assert.NotRegexp(t, other, note, "%s %v", c.Name, raw)
					assert.NotContains(t, note, "{", "%s: an unfilled gap", c.Name)
				}
			}
		}
	}
}

// TestFiguresAreInTheReadersUnits checks the units of all outputs of the examples.
func TestFiguresAreInTheReadersUnits(t *testing.T) {
	for _, c := range calc.All() {
		result, err := c.Compute(nil, c.Example.Raw(), measure.Metric)
		require.NoError(t, err, c.Name)
		for _, out := range c.Outputs {
			metric := out.Label + " " + out.Format(result.Outputs[out.Key], measure.Metric)
			imperial := out.Label + " " + out.Format(result.Outputs[out.Key], measure.Imperial)
			assert.NotRegexp(t, imperialFigure.String()+`|[Ff]oot`, metric, "%s %s", c.Name, out.Key)
			assert.NotRegexp(t, metricFigure.String()+`|[Mm]etre`, imperial, "%s %s", c.Name, out.Key)
		}
	}
	quads, _ := calc.Find("clusters")
	result, err := quads.Compute(nil, map[string]string{"length": "10ft", "recipe": "2x11@9.5"}, measure.Imperial)
	require.NoError(t, err)
	assert.InDelta(t, 2/0.3048, result.Number("per_m"), 0.02)
	out, _ := outputOf(quads, "per_m")
	assert.Equal(t, "2 a foot", out.Format(2/0.3048, measure.Imperial))
	assert.Equal(t, "6.56 a metre", out.Format(2/0.3048, measure.Metric))
}

// TestFeetGoWithPounds checks that decorators who measure in feet get pounds: no calculator writes newtons or pascals
// for them.
func TestFeetGoWithPounds(t *testing.T) {
	unit := regexp.MustCompile(`\d (N|Pa|N m²)\b`)
	for name, raw := range map[string]map[string]string{
		"dip": {"span": "8ft", "loads": "sign 4lb", "test_weight": "3lb", "test_dip": "1in", "left": "1ft"},
		"tip": {"width": "6ft", "height": "6ft", "weight": "90lb", "base_depth": "3ft", "wind": "9",
			"push": "9lb", "push_at": "3"},
		"line": {"weight": "4oz", "strength": "20 lb"},
		"size": {"size": "11"},
	} {
		c, _ := calc.Find(name)
		result, err := c.Compute(nil, raw, measure.Imperial)
		require.NoError(t, err, name)
		texts := result.Notes
		for _, line := range result.Working {
			texts = append(texts, line.Formula, line.Value)
		}
		for _, out := range c.Outputs {
			texts = append(texts, out.Format(result.Outputs[out.Key], measure.Imperial))
		}
		for _, shape := range result.Picture().Shapes {
			texts = append(texts, shape.Text)
		}
		for _, text := range append(texts, result.Picture().Title) {
			assert.NotRegexp(t, unit, text, name)
		}
	}
}

// TestTipSaysTheTakeDownWindWithItsBallast checks that an answer with ballast names the take-down wind with and without
// it: 60 % and 80 % of the wind at which the factors are exactly 1.5, which the calculator itself gives if the ballast
// is added to the weight.
func TestTipSaysTheTakeDownWindWithItsBallast(t *testing.T) {
	frame := []string{"width=2m", "height=2m", "base_depth=1m", "wind=6 m/s"}
	light := compute(t, "tip", append(frame, "weight=20kg")...)
	require.Equal(t, "needs ballast", light.Outputs["verdict"])
	heavy := compute(t, "tip", append(frame, "weight="+measure.FormatNumber(20+light.Number("ballast_kg"), 0)+"kg")...)
	require.Equal(t, "holds", heavy.Outputs["verdict"])
	want := "get ready at gusts of " + measure.FormatSpeed(heavy.Number("watch_mps"), measure.Metric) +
		", take it down at " + measure.FormatSpeed(heavy.Number("take_down_mps"), measure.Metric)
	assert.Contains(t, light.Notes[len(light.Notes)-1], want)
	assert.NotContains(t, light.Notes[len(light.Notes)-2], want, "without ballast it must come down earlier")
}
