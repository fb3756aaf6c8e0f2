package measure_test

import (
	"math"
	"testing"
	"unicode/utf8"

	"garlandry/calc/measure"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// FuzzFormatThenParse checks that a formatted value is read back to within half of the rounding step, whichever system
// is used for bare numbers.
func FuzzFormatThenParse(f *testing.F) {
	for _, seed := range []float64{0, 1, 3200.4, 3352, 304.7999, 152.4, 9.95, 999.5, 453.59237, 1e6, 123456.789} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, x float64) {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			x = 1
		}
		x = math.Mod(math.Abs(x), 1e6)
		type pair struct {
			name    string
			format  func(float64, measure.System) string
			parse   func(string, measure.System) (float64, error)
			steps   [2]float64 // metric, imperial
			relates float64    // a step relative to the size, for coarse large figures
		}
		pairs := []pair{
			{"length", measure.FormatLength, measure.ParseLengthMM, [2]float64{10, 12.7}, 0},
			{"small length", measure.FormatSmallLength, measure.ParseSmallLengthMM, [2]float64{1, 2.54}, 0},
			{"thin length", measure.FormatThinLength, measure.ParseThinLengthMM, [2]float64{1, 0.254}, 0},
			{"altitude", measure.FormatAltitude, measure.ParseAltitudeM, [2]float64{1, 0.3048}, 0},
			{"mass", measure.FormatMass, measure.ParseMassG, [2]float64{10, 4.5359237}, 0},
			{"volume", measure.FormatVolume, measure.ParseVolumeL, [2]float64{0.1, 2.8316847}, 0.0005},
			{"pressure", measure.FormatPressure, measure.ParsePressurePa, [2]float64{10000, 6894.757}, 0},
		}
		for _, p := range pairs {
			value := x
			if p.name == "altitude" {
				value = math.Mod(x, 10000)
			}
			for i, system := range []measure.System{metric, imperial} {
				text := p.format(value, system)
				for _, bare := range []measure.System{metric, imperial} {
					back, err := p.parse(text, bare)
					require.NoError(t, err, "%s %q", p.name, text)
					assert.InDelta(t, value, back, p.steps[i]/2+p.relates*value+1e-6, "%s %q", p.name, text)
				}
			}
		}
		checkOthersComeBack(t, x)
	})
}

// checkOthersComeBack formats x as every quantity with one unit and parses it again.
func checkOthersComeBack(t *testing.T, x float64) {
	t.Helper()
	back, err := measure.ParseMinutes(measure.FormatMinutes(x))
	require.NoError(t, err)
	assert.InDelta(t, x, back, 0.5+1e-9)
	cents := int(x)
	again, err := measure.ParseMoneyCents(measure.FormatMoney(cents))
	require.NoError(t, err)
	assert.Equal(t, cents, again)
	speed := math.Mod(x, 500)
	for _, system := range []measure.System{metric, imperial} {
		mps, err := measure.ParseSpeedMPS(measure.FormatSpeed(speed, system), metric)
		require.NoError(t, err)
		assert.InDelta(t, speed, mps, 0.05+1e-9)
		degrees := math.Mod(x, 1000) - 200
		celsius, err := measure.ParseTemperatureC(measure.FormatTemperature(degrees, system), imperial)
		require.NoError(t, err)
		assert.InDelta(t, degrees, celsius, 0.05+1e-9)
	}
	number, err := measure.ParseNumber(measure.FormatNumber(-x, 3))
	require.NoError(t, err)
	assert.InDelta(t, -x, number, 0.0005+1e-9)
}

// FuzzParseNeverPanics checks that no text makes a parser panic or return a value that is not finite, and that every
// error is one line of valid text.
func FuzzParseNeverPanics(f *testing.F) {
	for _, seed := range []string{"", "10'6\"", "3,2 m", "½", "1/2/3", ".", ",", "-", "10 ft -6", "1,,2", "€", "Bft",
		"1:", "\xff3m", "3m\n4m", "９ m"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		check := func(value float64, err error) {
			if err == nil {
				assert.False(t, math.IsNaN(value) || math.IsInf(value, 0), "%q gave %v", text, value)
				return
			}
			assert.NotContains(t, err.Error(), "\n")
			assert.True(t, utf8.ValidString(err.Error()), "%q", err.Error())
		}
		for _, system := range []measure.System{metric, imperial, ""} {
			check(measure.ParseLengthMM(text, system))
			check(measure.ParseSmallLengthMM(text, system))
			check(measure.ParseThinLengthMM(text, system))
			check(measure.ParseOffsetMM(text, system))
			check(measure.ParseAltitudeM(text, system))
			check(measure.ParseTemperatureC(text, system))
			check(measure.ParseMassG(text, system))
			check(measure.ParseSmallMassG(text, system))
			check(measure.ParseVolumeL(text, system))
			check(measure.ParseSpeedMPS(text, system))
			check(measure.ParsePressurePa(text, system))
		}
		check(measure.ParseMinutes(text))
		check(measure.ParseNumber(text))
		check(measure.ParsePercent(text))
		check(measure.ParseAngleDeg(text))
		check(measure.ParseForceN(text))
		cents, err := measure.ParseMoneyCents(text)
		check(float64(cents), err)
		count, err := measure.ParseCount(text)
		check(float64(count), err)
	})
}
