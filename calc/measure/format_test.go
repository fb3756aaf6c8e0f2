package measure_test

import (
	"fmt"
	"math"
	"testing"

	"garlandry/calc/measure"

	"github.com/stretchr/testify/assert"
)

func TestFormat(t *testing.T) {
	rows := []struct{ name, want, got string }{
		{"metres", "3.2 m", measure.FormatLength(3200, metric)},
		{"metres rounded to the centimetre", "3.25 m", measure.FormatLength(3248, metric)},
		{"feet and inches", "10 ft 6 in", measure.FormatLength(3200.4, imperial)},
		{"whole feet", "10 ft", measure.FormatLength(3048, imperial)},
		{"half inch", "10 ft 6.5 in", measure.FormatLength(3213.1, imperial)},
		{"inches carry into feet", "11 ft", measure.FormatLength(3352, imperial)},
		{"below a foot", "6 in", measure.FormatLength(152.4, imperial)},
		{"nothing", "0 in", measure.FormatLength(0, imperial)},
		{"negative", "-1 ft 6 in", measure.FormatLength(-457.2, imperial)},
		{"not a number", "? ft", measure.FormatLength(math.NaN(), imperial)},
		{"endless", "? m", measure.FormatLength(math.Inf(1), metric)},
		{"centimetres", "24 cm", measure.FormatSmallLength(240, metric)},
		{"inches", "9.5 in", measure.FormatSmallLength(241.3, imperial)},
		{"altitude", "1000 ft", measure.FormatAltitude(304.8, imperial)},
		{"Celsius", "22 °C", measure.FormatTemperature(22, metric)},
		{"Fahrenheit", "71.6 °F", measure.FormatTemperature(22, imperial)},
		{"no negative nought", "0 °C", measure.FormatTemperature(-0.01, metric)},
		{"few grams", "2.9 g", measure.FormatMass(2.9, metric)},
		{"a balloon's lift", "11.8 g", measure.FormatMass(11.81, metric)},
		{"a balloon", "0.1 oz", measure.FormatMass(2.9, imperial)},
		{"a ribbon", "0.04 oz", measure.FormatMass(1, imperial)},
		{"a dip", "18 mm", measure.FormatThinLength(18.2, metric)},
		{"a wall", "1.2 mm", measure.FormatThinLength(1.2, metric)},
		{"a dip in inches", "0.71 in", measure.FormatThinLength(18, imperial)},
		{"grams", "200 g", measure.FormatMass(200, metric)},
		{"kilograms", "1.5 kg", measure.FormatMass(1500, metric)},
		{"ounces", "7.1 oz", measure.FormatMass(200, imperial)},
		{"pounds", "3.31 lb", measure.FormatMass(1500, imperial)},
		{"litres", "8.58 L", measure.FormatVolume(8.5801, metric)},
		{"cubic feet", "17 cu ft", measure.FormatVolume(481.386392, imperial)},
		{"m/s", "8 m/s", measure.FormatSpeed(8, metric)},
		{"mph", "17.9 mph", measure.FormatSpeed(8, imperial)},
		{"hours and minutes", "1 h 30 min", measure.FormatMinutes(90)},
		{"hours", "2 h", measure.FormatMinutes(120)},
		{"minutes", "45 min", measure.FormatMinutes(45.4)},
		{"money", "9.90", measure.FormatMoney(990)},
		{"cents", "0.05", measure.FormatMoney(5)},
		{"owed", "-0.05", measure.FormatMoney(-5)},
		{"percent", "4.5 %", measure.FormatPercent(4.5)},
		{"all", "100 %", measure.FormatPercent(100)},
		{"nearly all", "99.9999 %", measure.FormatPercent(99.9999)},
		{"a little less", "99.9 %", measure.FormatPercent(99.9)},
		{"nearly all, to the tenth", "99.9 %", measure.FormatPercent(99.9499)},
		{"nearly all, to the hundredth", "99.97 %", measure.FormatPercent(99.9691)},
		{"all but for rounding", "100 %", measure.FormatPercent(99.999999)},
		{"angle", "45°", measure.FormatAngle(45)},
		{"bar", "200 bar", measure.FormatPressure(2e7, metric)},
		{"pascal", "2500 Pa", measure.FormatPressure(2500, metric)},
		{"psi", "2901 psi", measure.FormatPressure(2e7, imperial)},
		{"newtons", "90 N", measure.FormatForce(90, metric)},
		{"pounds of force", "20 lb", measure.FormatForce(88.9644, imperial)},
		{"less than a pound", "-8 oz", measure.FormatForce(-2.22411, imperial)},
		{"no force", "0 lb", measure.FormatForce(0, imperial)},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) { assert.Equal(t, row.want, row.got) })
	}
}

// TestBeaufortAgainstTheTable checks the limits in m/s of WMO code table 306, as seen in a published sailing table
// (vsail4u.com). The Beaufort law v = 0.836 B^1.5 (WMO, from memory) must be within its own class.
func TestBeaufortAgainstTheTable(t *testing.T) {
	lower := []float64{0, 0.3, 1.6, 3.4, 5.5, 8.0, 10.8, 13.9, 17.2, 20.8, 24.5, 28.5}
	for force, from := range lower {
		top, ok := measure.BeaufortTopMPS(force)
		assert.True(t, ok)
		assert.Less(t, from, top)
		if force > 0 {
			below, _ := measure.BeaufortTopMPS(force - 1)
			assert.InDelta(t, 0.1, from-below, 1e-9, "force %d must begin where the one below ends", force)
		}
		law := 0.836 * math.Pow(float64(force), 1.5)
		assert.True(t, from <= law+0.05 && law <= top+0.05, "force %d, law %v", force, law)
	}
	_, ok := measure.BeaufortTopMPS(12)
	assert.False(t, ok)
}

func ExampleParseLengthMM() {
	mm, _ := measure.ParseLengthMM("10'6\"", measure.Metric)
	fmt.Println(mm, measure.FormatLength(mm, measure.Metric), measure.FormatLength(mm, measure.Imperial))
	_, err := measure.ParseLengthMM("3 m 6 in", measure.Metric)
	fmt.Println(err)
	// Output:
	// 3200.4 3.2 m 10 ft 6 in
	// cannot read "3 m 6 in" (the two units do not go together): write a length such as 3.2 m, 320 cm or 10 ft 6 in
}
