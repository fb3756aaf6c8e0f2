package calc_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc"
	"garlandry/calc/latex"
	"garlandry/calc/measure"
)

// TestAMeasuredBalloonGrowsInProportion checks that a measurement equal to the computed value changes nothing, that
// others change the growth in proportion, and that heating and cooling do so alike.
func TestAMeasuredBalloonGrowsInProportion(t *testing.T) {
	usual := []string{"size=11", "to=8.5in", "fill_temp=10C", "show_temp=35C"}
	base := compute(t, "heat", usual...)
	grown := base.Number("show_diameter_mm") - 215.9
	mm := func(x float64) string { return "became=" + measure.FormatNumber(x, 4) + " mm" }
	same := compute(t, "heat", append(usual, mm(215.9+grown))...)
	assert.InDelta(t, base.Number("show_diameter_mm"), same.Number("show_diameter_mm"), 1e-3)
	assert.InDelta(t, base.Number("fill_to_mm"), same.Number("fill_to_mm"), 1e-3)
	twice := compute(t, "heat", append(usual, mm(215.9+2*grown))...)
	assert.InDelta(t, 215.9+2*grown, twice.Number("show_diameter_mm"), 1e-3)
	assert.InDelta(t, 215.9-2*(215.9-base.Number("fill_to_mm")), twice.Number("fill_to_mm"), 1e-3)
	grew := twice.Number("show_diameter_mm") / 215.9
	assert.InDelta(t, grew*grew*grew, twice.Number("volume_ratio"), 1e-9)
	assert.InDelta(t, compute(t, "heat", append(usual, "growth=2")...).Number("fill_pct_at_show"),
		twice.Number("fill_pct_at_show"), 1e-3)
	size, _ := latex.Find(11)
	assert.InDelta(t, size.FillPct(twice.Number("show_diameter_mm")), twice.Number("fill_pct_at_show"), 1e-6)
}

func TestAMeasuredBalloonFloatsAsLongAsItDid(t *testing.T) {
	base := compute(t, "lift", "size=11", "to=11in")
	own := compute(t, "lift", "size=11", "to=11in", "floated=30 h")
	assert.Equal(t, 30.0, own.Number("float_h"))
	assert.Equal(t, base.Number("net_g"), own.Number("net_g"))
	times := compute(t, "lift", "size=11", "to=11in", "gel="+measure.FormatNumber(30/base.Number("float_h"), 6))
	assert.InDelta(t, 30, times.Number("float_h"), 1e-3, "stored as a factor, it must give the same time")
}

// TestTheGasOfAMeasuredBalloon checks that a pull equal to the computed lift changes nothing, that what it pulls is
// then what it carries, that litres timed are litres held, and that both give the factor that is stored.
func TestTheGasOfAMeasuredBalloon(t *testing.T) {
	usual := []string{"size=11", "to=11in"}
	base := compute(t, "lift", usual...)
	grams := func(x float64) string { return "pulls=" + measure.FormatNumber(x, 6) + " g" }
	same := compute(t, "lift", append(usual, grams(base.Number("net_g")))...)
	assert.InDelta(t, base.Number("gross_g"), same.Number("gross_g"), 1e-4)
	more := compute(t, "lift", append(usual, grams(base.Number("net_g")+2))...)
	assert.InDelta(t, base.Number("net_g")+2, more.Number("net_g"), 1e-4)
	assert.Greater(t, more.Number("float_h"), base.Number("float_h"))
	times := (base.Number("gross_g") + 2) / base.Number("gross_g")
	typed := compute(t, "lift", append(usual, "gas="+measure.FormatNumber(times, 8))...)
	assert.InDelta(t, more.Number("net_g"), typed.Number("net_g"), 1e-4)
	litres := measure.FormatNumber(times*0.5*28.316846592, 8)
	timed := compute(t, "lift", append(usual, "holds="+litres+" L")...)
	assert.InDelta(t, more.Number("net_g"), timed.Number("net_g"), 1e-4)
}

func TestMeasurementsThatCannotBeAreRefused(t *testing.T) {
	for _, row := range []struct {
		name, calculator, input string
		typed                   map[string]string
	}{
		{"no change of temperature", "heat", "became", map[string]string{"size": "11", "to": "10in", "fill_temp": "20C",
			"show_temp": "20C", "became": "10.4in"}},
		{"misread", "heat", "became", map[string]string{"size": "11", "to": "10in", "fill_temp": "18C",
			"show_temp": "35C", "became": "14in"}},
		{"it shrank in the warmth", "heat", "became", map[string]string{"size": "11", "to": "10in", "fill_temp": "18C",
			"show_temp": "35C", "became": "9.5in"}},
		{"it cannot float", "lift", "floated", map[string]string{"size": "5", "to": "4in", "floated": "10 h"}},
		{"it pulls like another size", "lift", "pulls", map[string]string{"size": "11", "pulls": "60 g"}},
		{"weighed and timed", "lift", "holds", map[string]string{"size": "11", "pulls": "8 g", "holds": "14 L"}},
		{"more broke than there were", "spares", "fail", map[string]string{"need": "200", "fail": "9 of 5"}},
		{"of nothing", "spares", "fail", map[string]string{"need": "200", "fail": "9 of 0"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			c, known := calc.Find(row.calculator)
			require.True(t, known)
			_, err := c.Compute(nil, row.typed, measure.Metric)
			var fault *calc.InputError
			require.ErrorAs(t, err, &fault)
			assert.Equal(t, row.input, fault.Input)
		})
	}
	assert.Equal(t, compute(t, "spares", "need=200", "fail=4.5").Outputs,
		compute(t, "spares", "need=200", "fail=9 of 200").Outputs)
}

// TestTheCarCarriesThePear checks that clusters of full balloons take at least their gas, half a cubic foot in a full
// 11-inch by helium charts, over the closest random packing of 0.64.
func TestTheCarCarriesThePear(t *testing.T) {
	result := compute(t, "car", "cargo=180 x 110 x 85 cm", "clusters=20", "recipe=2x11@11", "packing=64%")
	assert.GreaterOrEqual(t, result.Number("litres"), 80*0.5*28.316846592/0.64-1e-6)
}
