package calc_test

import (
	"math"
	"strings"
	"testing"

	"garlandry/calc"
	"garlandry/calc/measure"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestExamplesRun checks that every calculator's worked example gives its stated results, in both systems.
func TestExamplesRun(t *testing.T) {
	for _, c := range calc.All() {
		t.Run(c.Name, func(t *testing.T) {
			require.NotEmpty(t, c.Example.Story)
			require.NotEmpty(t, c.Example.Expect)
			result, err := c.Compute(nil, c.Example.Raw(), measure.Metric)
			require.NoError(t, err)
			for _, want := range c.Example.Expect {
				out, ok := outputOf(c, want.Key)
				require.True(t, ok, want.Key)
				got := result.Outputs[want.Key]
				if want.Text != "" {
					assert.Equal(t, want.Text, out.Format(got, measure.Metric), want.Key)
					continue
				}
				assert.InDelta(t, want.Value, result.Number(want.Key), want.Within, want.Key)
			}
		})
	}
}

// TestEveryCalculatorIsDescribed checks that a page, the command line and the documentation have everything they need.
func TestEveryCalculatorIsDescribed(t *testing.T) {
	names := map[string]bool{}
	for _, c := range calc.All() {
		t.Run(c.Name, func(t *testing.T) {
			assert.False(t, names[c.Name], "name used twice")
			names[c.Name] = true
			for _, text := range []string{c.Name, c.Title, c.Group, c.Purpose} {
				assert.NotEmpty(t, text)
				assert.NotContains(t, text, "\n")
			}
			keys := map[string]bool{}
			for _, in := range c.Inputs {
				assert.False(t, keys[in.Key], "input %s twice", in.Key)
				keys[in.Key] = true
				assert.NotEmpty(t, in.Label, in.Key)
				assert.NotEmpty(t, in.Help, in.Key)
				assert.NotEmpty(t, in.Kind, in.Key)
				assert.NotEmpty(t, in.Example, in.Key)
				assert.False(t, in.Required && in.Default != "", "%s is required and has a default", in.Key)
				assert.Equal(t, in.Kind == calc.KindChoice, len(in.Choices) > 0, in.Key)
			}
			outputs, mains := map[string]bool{}, 0
			for _, out := range c.Outputs {
				assert.False(t, outputs[out.Key], "output %s twice", out.Key)
				outputs[out.Key] = true
				assert.NotEmpty(t, out.Label, out.Key)
				assert.NotEmpty(t, out.Meaning, out.Key)
				assert.NotEmpty(t, out.Kind, out.Key)
				if out.Main {
					mains++
				}
			}
			assert.Greater(t, mains, 0, "no main output")
			found, ok := calc.Find(c.Name)
			assert.True(t, ok)
			assert.Equal(t, c.Name, found.Name)
		})
	}
}

// TestOutputKeysOfTheTable checks the keys that readers of the JSON rely on.
func TestOutputKeysOfTheTable(t *testing.T) {
	table := map[string]string{
		"size": "diameter_mm circumference_mm volume_l fill_pct latex_g pressure_pa",
		"heat": "show_diameter_mm volume_ratio fill_to_mm fill_pct_at_show",
		"lift": "gross_g net_g float_h per_cylinder ballast_g",
		"clusters": "pitch_mm clusters duplets balloons per_m width_mm widest_mm coverage_pct ball_seen_mm " +
			"ball_mm ties",
		"match":   "duplets ball_seen_mm target_seen_mm closes_pct",
		"accents": "accents coverage_before_pct coverage_after_pct",
		"outline": "length_mm sections section_mm",
		"column":  "layers clusters balloons height_mm",
		"wall":    "rows columns clusters balloons height_mm",
		"spares":  "buy spares",
		"split":   "shares",
		"bags":    "bags cost left",
		"dip":     "dip_mm limit_mm share_pct verdict",
		"tip":     "overturn_factor slide_factor ballast_kg wind_n verdict",
		"line":    "per_line_n allowed_n factor verdict",
		"car":     "litres trips longest_mm fits",
	}
	require.Equal(t, len(table), len(calc.All()), "calculators in the list")
	for _, c := range calc.All() {
		t.Run(c.Name, func(t *testing.T) {
			require.Contains(t, table, c.Name)
			for _, key := range strings.Fields(table[c.Name]) {
				_, ok := outputOf(c, key)
				assert.True(t, ok, key)
			}
			for _, system := range []measure.System{measure.Metric, measure.Imperial} {
				result, err := c.Compute(nil, c.Example.Raw(), system)
				require.NoError(t, err)
				checkResult(t, c, result)
			}
		})
	}
}

// checkResult checks what every result must satisfy, whatever was typed.
func checkResult(t *testing.T, c calc.Calculator, result calc.Result) {
	t.Helper()
	described := 0
	for _, out := range c.Outputs {
		value, there := result.Outputs[out.Key]
		if !there {
			assert.Contains(t, out.Meaning, "only with", "%s is missing", out.Key)
			continue
		}
		described++
		for _, system := range []measure.System{measure.Metric, measure.Imperial} {
			text := out.Format(value, system)
			assert.NotEmpty(t, text, out.Key)
			assert.NotContains(t, text, "?", out.Key)
		}
	}
	assert.Len(t, result.Outputs, described, "an output is undescribed")
	assert.NotEmpty(t, result.Working)
	for _, line := range result.Working {
		assert.NotEmpty(t, line.Label)
		assert.NotEmpty(t, line.Value, line.Label)
		assert.NotContains(t, line.Label+line.Formula+line.Value, "NaN")
	}
	for _, note := range result.Notes {
		assert.NotContains(t, note, "\n")
		assert.NotEmpty(t, note)
	}
	checkDrawing(t, result.Picture())
	checkJSON(t, c, result)
}

func checkDrawing(t *testing.T, d *calc.Drawing) {
	t.Helper()
	if d == nil {
		return
	}
	assert.NotEmpty(t, d.Title)
	assert.NotEmpty(t, d.Shapes)
	needs := map[calc.ShapeKind]int{calc.ShapeCircle: 1, calc.ShapeText: 1, calc.ShapeArrow: 2,
		calc.ShapeDimension: 2, calc.ShapeLine: 2, calc.ShapeArea: 3}
	for _, shape := range d.Shapes {
		least, known := needs[shape.Kind]
		assert.True(t, known, "shape %q", shape.Kind)
		assert.GreaterOrEqual(t, len(shape.Points), least, "%s", shape.Kind)
		assert.NotEmpty(t, shape.Role)
		for _, p := range shape.Points {
			inside := p.XMM >= shape.RadiusMM-0.02 && p.XMM <= d.WidthMM-shape.RadiusMM+0.02 && p.YMM >= shape.RadiusMM-0.02 &&
				p.YMM <= d.HeightMM-shape.RadiusMM+0.02
			assert.True(t, inside, "%s at %v outside %v x %v", shape.Kind, p, d.WidthMM, d.HeightMM)
			assert.False(t, math.IsNaN(p.XMM+p.YMM))
		}
	}
}
