package calc_test

import (
	"strings"
	"testing"

	"garlandry/calc"
	"garlandry/calc/measure"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestOddCallsAreRefused checks text that looks valid but is not what was meant. The error names the wrong input and
// says what is wrong.
func TestOddCallsAreRefused(t *testing.T) {
	for name, row := range map[string]struct{ calculator, key, text, says string }{
		"a weight below nothing":                        {"dip", "loads", "sign -2kg", "less than nothing"},
		"a weight below nothing, no name":               {"dip", "loads", "−1 kg", "less than nothing"},
		"a load heavier than any bar takes":             {"dip", "loads", "600 kg", "of at most 500 kg"},
		"more loads than are added up":                  {"dip", "loads", strings.Repeat("1kg, ", 101), "1 to 100 loads"},
		"more stays than it dips":                       {"dip", "test_stays", "20 mm", "must be less than the dip"},
		"a bar that sticks out further than it spans":   {"dip", "left", "3 m", "further than the span"},
		"the same on the other side":                    {"dip", "right", "3 m", "further than the span"},
		"a bench test bent double":                      {"dip", "test_dip", "0.7 m", "quarter of the test span"},
		"useless before it shows":                       {"dip", "useless", "200", "must be smaller than"},
		"a fraction that could be a share or a percent": {"spares", "fail", "0.05", "it could mean 0.05 % or 5 %"},
		"the same with a decimal comma":                 {"lift", "purity", "0,92", "it could mean 0.92 % or 92 %"},
		"a part of a little more than all":              {"outline", "part", "1.5", "out of range"},
		"a bare fraction of a force":                    {"line", "strength", "½", "the unit is missing"},
		"a bare force with a sign":                      {"line", "strength", "+3", "the unit is missing"},
		"a car of half a something":                     {"car", "cargo", "½", "two or three sides"},
		"one side with a unit, the last two without":    {"car", "cargo", "180 cm x 110 x 85", "a side without its unit"},
		"the middle side without a unit":                {"car", "cargo", "1.8m x 1.1 x 85cm", "a side without its unit"},
		"feet and inches for the last side alone":       {"car", "cargo", "4 x 3 x 2 ft 6 in", "a side without its unit"},
		"an empty car":                                  {"car", "clusters", "0", "give clusters, balloons or sections"},
		"nothing on a line":                             {"line", "weight", "0", "out of range"},
		"a push at the ground":                          {"tip", "push_at", "0", "out of range"},
		"named shares with decimal commas":              {"split", "weights", "coral 5,3, sand 2,4", "semicolons"},
		"named shares without commas":                   {"split", "weights", "coral=3 sand=2", "no comma between"},
		"a modelling balloon as a ball":                 {"size", "size", "260", "long modelling balloon"},
		"latex of another size":                         {"size", "latex_g", "300 g", "no balloon of size 11 weighs 300 g"},
		"sections by the thousand":                      {"outline", "section_max", "10 cm", "more than 10000 sections"},
		"a gale between two forces, falling":            {"tip", "wind", "Bft 5-4", "cannot read"},
	} {
		t.Run(name, func(t *testing.T) {
			c, _ := calc.Find(row.calculator)
			raw := map[string]string{}
			for key, text := range c.Example.Raw() {
				raw[key] = text
			}
			switch {
			case row.key == "push_at":
				raw["push"] = "100 N"
			case row.key == "section_max":
				raw["width"], raw["height"] = "500m", "500m"
			case row.text == "0" && row.calculator == "car":
				delete(raw, "sections")
			}
			raw[row.key] = row.text
			_, err := c.Compute(nil, raw, measure.Metric)
			require.Error(t, err)
			checkRefusal(t, err, row.key)
			assert.Contains(t, err.Error(), row.says)
		})
	}
}

// TestOddCallsMeanWhatTheySay checks unusual notations, including some that were misread once.
func TestOddCallsMeanWhatTheySay(t *testing.T) {
	for name, row := range map[string]struct{ calculator, key, text, same string }{
		"a percentage without its sign":   {"outline", "part", "75", "75 %"},
		"a knot in percent":               {"line", "knot", "50", "0.5"},
		"a share typed as a fraction":     {"outline", "part", "3/4", "75 %"},
		"three feet are thirty-six inch":  {"size", "to", "3ft", "36in"},
		"a forecast between two forces":   {"tip", "wind", "Bft 3-4", "Bft 4"},
		"the same in words":               {"tip", "wind", "force 3 to 4", "Bft 4"},
		"pounds of force":                 {"line", "strength", "20 lbf", "20 lb"},
		"decanewton, as on ratchet lines": {"line", "strength", "9 daN", "90 N"},
		"stars for times":                 {"clusters", "recipe", "2*11@10 + 1*18@16", "2x11@10 + 1x18@16"},
		"semicolons between parts":        {"clusters", "recipe", "2x11@10; 1x18@16", "2x11@10 + 1x18@16"},
		"stars and decimal commas":        {"clusters", "recipe", "2*11@9,5, 1*18@16", "2x11@9.5 + 1x18@16"},
		"a base counted per length":       {"clusters", "measured", "12 per 1.83 m", "12 in 1.83 m"},
		"loose balloons without blanks":   {"car", "balloons", "60x11@10,20x5@4.5", "60 x 11@10, 20 x 5@4.5"},
		"loose balloons, decimal commas":  {"car", "balloons", "60x11@9,5,20x5@4,5", "60 x 11@9.5, 20 x 5@4.5"},
		"loose balloons with a plus":      {"car", "balloons", "120 x 11@10 + 40 x 5", "120 x 11@10, 40 x 5"},
		"shares with times":               {"split", "weights", "3x coral, 2x sand", "coral 3, sand 2"},
		"shares with stars":               {"split", "weights", "coral*3, sand*2", "coral 3, sand 2"},
		"a cloth along the bar":           {"dip", "loads", "cloth 1.8kg along the bar", "cloth 1.8kg along"},
		"a list with dashes":              {"dip", "loads", "sign - 2kg @ 1m", "sign 2kg @ 1m"},
	} {
		t.Run(name, func(t *testing.T) {
			c, _ := calc.Find(row.calculator)
			outputs := func(text string) map[string]any {
				raw := c.Example.Raw()
				if row.key == "to" {
					raw = map[string]string{"size": "36"}
				}
				if row.key == "part" {
					raw = map[string]string{"shape": "hoop", "diameter": "2m"}
				}
				raw[row.key] = text
				result, err := c.Compute(nil, raw, measure.Metric)
				require.NoError(t, err, text)
				return result.Outputs
			}
			assert.Equal(t, outputs(row.same), outputs(row.text))
		})
	}
}

// TestOddCallsGetANote checks that unused and implausible inputs get a note.
func TestOddCallsGetANote(t *testing.T) {
	for name, row := range map[string]struct {
		calculator string
		more       map[string]string
		says       string
	}{
		"part of an arch":            {"outline", map[string]string{"part": "50%"}, "Not used for this shape: part."},
		"joints beside a bench test": {"dip", map[string]string{"joints": "2"}, "in the bench test"},
		"a push above the stand": {"tip", map[string]string{"push": "100 N", "push_at": "5m"},
			"above the upper edge, which is 2.25 m up"},
		"a bar that is a string": {"dip", map[string]string{"loads": "90kg"}, "only says that the bar fails"},
		"gel for half a year": {"lift", map[string]string{"size": "36", "to": "33in", "gel": "30"},
			"longer than latex lasts"},
		"as many as may be, and too few": {"match", map[string]string{"max_duplets": "3"}, "smaller than the recipe's"},
		"one duplet for a cluster of more": {"match", map[string]string{"recipe": "2x11@9", "with": "12@11"},
			"lies flat"},
	} {
		t.Run(name, func(t *testing.T) {
			c, _ := calc.Find(row.calculator)
			raw := c.Example.Raw()
			for key, text := range row.more {
				raw[key] = text
			}
			result, err := c.Compute(nil, raw, measure.Metric)
			require.NoError(t, err)
			assert.Contains(t, strings.Join(result.Notes, " "), row.says)
		})
	}
	tube := map[string]string{"span": "2m", "loads": "1kg", "tube_outer": "28", "tube_wall": "1.5", "play": "1"}
	result, err := computeNamed("dip", tube, measure.Metric)
	require.NoError(t, err)
	assert.Contains(t, strings.Join(result.Notes, " "), "Play is not counted without joints")
	result, err = computeNamed("size", map[string]string{"size": "36", "to": "3 ft"}, measure.Metric)
	require.NoError(t, err)
	assert.NotContains(t, strings.Join(result.Notes, " "), "Past full")
}

// TestLimitsOfListsAreTrue checks the stated limits of lists at their edge.
func TestLimitsOfListsAreTrue(t *testing.T) {
	raw := map[string]string{"span": "2m", "test_weight": "1kg", "test_dip": "9mm",
		"loads": strings.TrimSuffix(strings.Repeat("1g, ", 100), ", ")}
	_, err := computeNamed("dip", raw, measure.Metric)
	require.NoError(t, err, "100 loads")
	sure, _ := calc.Find("spares")
	in, _ := sure.Input("sure")
	assert.Equal(t, "1 % to 99.9999 %", in.Range(measure.Metric))
	raw["loads"] = "500 kg"
	_, err = computeNamed("dip", raw, measure.Metric)
	require.NoError(t, err, "500 kg")
}

// TestNothingIsSaidOfWhatWasNotGiven checks that there are no balloons from a cylinder without a cylinder, and no wind
// to take a stand down at where somebody leans on it indoors.
func TestNothingIsSaidOfWhatWasNotGiven(t *testing.T) {
	lean := []string{"width=1.2m", "height=2m", "weight=12kg", "base_depth=0.6m", "push=60 N", "push_at=1.4m"}
	for _, row := range []struct {
		calculator string
		without    []string
		with       []string
		keys       []string
		step       string
	}{
		{"lift", []string{"size=11"}, []string{"cylinder_l=10", "cylinder_bar=200"}, []string{"per_cylinder"},
			"Cylinder"},
		{"lift", []string{"size=11"}, []string{"cylinder_gas=50 cu ft"}, []string{"per_cylinder"}, "Cylinder"},
		{"tip", lean, []string{"wind=8 m/s"}, []string{"wind_n", "take_down_mps", "watch_mps"}, "Wind pushes"},
		{"tip", append(lean, "wind=0 m/s"), []string{"wind=Bft 4"}, []string{"wind_n", "take_down_mps", "watch_mps"},
			"Wind pushes"},
	} {
		without := compute(t, row.calculator, row.without...)
		with := compute(t, row.calculator, append(row.without[:len(row.without):len(row.without)], row.with...)...)
		for _, key := range row.keys {
			assert.NotContains(t, without.Outputs, key)
			assert.Contains(t, with.Outputs, key)
		}
		steps := func(r calc.Result) (all []string) {
			for _, line := range r.Working {
				all = append(all, line.Label)
			}
			return all
		}
		assert.NotContains(t, steps(without), row.step)
		assert.Contains(t, steps(with), row.step)
	}
}

// TestASectionOfMeasuredThicknessIsABar checks that a section of 2 cm by 10 m needs 4 litres, whatever recipe is usual,
// and that a typed recipe needs the room of its air.
func TestASectionOfMeasuredThicknessIsABar(t *testing.T) {
	thin := []string{"cargo=2 x 1 x 1 m", "sections=1", "section_length=10m", "section_thick=2cm"}
	assert.InDelta(t, 4, compute(t, "car", thin...).Number("litres"), 1e-6)
	recipe := "recipe=2x11@10"
	clusters := compute(t, "clusters", "length=10m", recipe).Number("clusters")
	air := 4 * clusters * compute(t, "size", "size=11", "to=10in").Number("volume_l")
	assert.GreaterOrEqual(t, compute(t, "car", append(thin, recipe)...).Number("litres"), air/0.64)
}

// TestTheGasOfOnesOwnIsMeasured checks that the working of a measured balloon has the usual volume with its mark, then
// the measured one without.
func TestTheGasOfOnesOwnIsMeasured(t *testing.T) {
	for _, own := range []string{"holds=13 L", "pulls=8 g", "gas=1.2"} {
		working := compute(t, "lift", "size=11", "to=11in", own).Working
		assert.Equal(t, "Usual volume", working[0].Label, own)
		assert.Contains(t, working[0].Formula, "14.2 L when full (common practice)", own)
		assert.Equal(t, "Volume", working[2].Label, own)
		assert.Equal(t, "14.2 L × "+working[1].Value, working[2].Formula, own)
	}
}
