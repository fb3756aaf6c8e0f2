package measure_test

import (
	"errors"
	"testing"

	"garlandry/calc/measure"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	metric   = measure.Metric
	imperial = measure.Imperial
)

func TestParseLengthReadsWhatPeopleWrite(t *testing.T) {
	rows := []struct {
		name string
		text string
		bare measure.System
		mm   float64
	}{
		{"feet stuck to the number", "10ft", metric, 3048},
		{"feet and inches by marks", "10'6\"", metric, 3200.4},
		{"typographic primes", "10′6″", metric, 3200.4},
		{"curly quotes from a phone keyboard", "10’ 6”", metric, 3200.4},
		{"two apostrophes for inches", "10'6''", metric, 3200.4},
		{"drawing style with a hyphen", "10'-6\"", metric, 3200.4},
		{"feet and inches in words", "10 ft 6 in", metric, 3200.4},
		{"dots after the units", "10 ft. 6 in.", metric, 3200.4},
		{"comma between", "10 feet, 6 inches", metric, 3200.4},
		{"second number bare", "10 ft 6", metric, 3200.4},
		{"half inch", "10 ft 6 1/2 in", metric, 3213.1},
		{"half inch as one character", "10 ft 6½\"", metric, 3213.1},
		{"only a fraction", "3/4 in", metric, 19.05},
		{"hyphen before the unit", "11-inch", metric, 279.4},
		{"metres with a point", "3.2 m", imperial, 3200},
		{"metres with a comma", "3,2 m", imperial, 3200},
		{"centimetres", "320cm", imperial, 3200},
		{"metres and centimetres", "3 m 20 cm", imperial, 3200},
		{"metres and bare centimetres", "3 m 20", imperial, 3200},
		{"capitals", "3.2 M", imperial, 3200},
		{"no-break space", "3.2\u00a0m", imperial, 3200},
		{"spaces all round", "  3.2   m  ", imperial, 3200},
		{"bare metric", "3.2", metric, 3200},
		{"bare imperial", "10", imperial, 3048},
		{"point without a leading digit", ".5 m", metric, 500},
		{"grouped thousands with decimals", "1,200.5 mm", metric, 1200.5},
		{"continental grouping", "1.200,5 mm", metric, 1200.5},
		{"leading nought makes the comma plain", "0,125 m", metric, 125},
		{"yards", "2 yd", metric, 1828.8},
		{"zero", "0", metric, 0},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			mm, err := measure.ParseLengthMM(row.text, row.bare)
			require.NoError(t, err)
			assert.InDelta(t, row.mm, mm, 1e-9)
		})
	}
}

func TestParseLengthRefusesNonsense(t *testing.T) {
	rows := []struct {
		name, text, says string
	}{
		{"empty", "", "nothing was typed"},
		{"only spaces", "  \t ", "nothing was typed"},
		{"a word", "wide", "no number in it"},
		{"not a number", "NaN m", "no number in it"},
		{"infinity", "Inf m", "no number in it"},
		{"exponent is not a unit", "1e3 m", "unknown unit e"},
		{"hexadecimal", "0x10", "unknown unit x"},
		{"unknown unit", "3 parsec", "unknown unit parsec"},
		{"a mass", "3 kg", "unknown unit kg"},
		{"metric with imperial", "3 m 6 in", "the two units do not go together"},
		{"smaller first", "6 in 10 ft", "the larger unit comes first"},
		{"same unit twice", "3 m 4 m", "the larger unit comes first"},
		{"fraction before another number", "3.5 ft 6 in", "only the last number can have a fraction"},
		{"two bare numbers", "10 6", "the unit is missing"},
		{"a second number that cannot be inches", "10 ft 14", "the unit of the last number is missing"},
		{"inches have no smaller unit", "6 in 3", "the unit is missing"},
		{"a comma with two meanings", "1,200 mm", "it could mean 1.200 or 1200"},
		{"separators in disorder", "1,20.0,5 m", "the commas and points do not make a number"},
		{"bad groups", "1,20,30 m", "the commas and points do not make a number"},
		{"negative", "-3 m", "less than nothing"},
		{"typographic minus", "−3 m", "less than nothing"},
		{"absurd", "90000 km", "far too large"},
		{"too many digits", "1234567890123456789012345 m", "too many digits"},
		{"something in front", "about 3 m", "starts with about"},
		{"division by zero", "1/0 in", "unknown unit /"},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			for _, system := range []measure.System{metric, imperial} {
				_, err := measure.ParseLengthMM(row.text, system)
				require.Error(t, err)
				var failure *measure.Error
				require.True(t, errors.As(err, &failure))
				assert.Equal(t, row.text, failure.Text)
				assert.Contains(t, err.Error(), row.says)
				assert.Contains(t, err.Error(), "such as 3.2 m")
			}
		})
	}
}

// with returns parse for the system of units of bare numbers.
func with(parse func(string, measure.System) (float64, error), s measure.System) func(string) (float64, error) {
	return func(text string) (float64, error) { return parse(text, s) }
}

// otherQuantities lists texts of quantities other than lengths, and their values.
var otherQuantities = []struct {
	name  string
	parse func(string) (float64, error)
	text  string
	want  float64
}{
	{"bare centimetres", with(measure.ParseSmallLengthMM, metric), "24", 240},
	{"bare inches", with(measure.ParseSmallLengthMM, imperial), "9.5", 241.3},
	{"inch mark", with(measure.ParseSmallLengthMM, metric), "11\"", 279.4},
	{"bare millimetres", with(measure.ParseThinLengthMM, metric), "18", 18},
	{"bare thin inches", with(measure.ParseThinLengthMM, imperial), "1/2", 12.7},
	{"negative offset", with(measure.ParseOffsetMM, metric), "-1.2", -1200},
	{"altitude in feet", with(measure.ParseAltitudeM, metric), "1000 ft", 304.8},
	{"altitude below the sea", with(measure.ParseAltitudeM, metric), "-430 m", -430},

	{"Fahrenheit stuck", with(measure.ParseTemperatureC, metric), "72F", 22.2222222222},
	{"Celsius", with(measure.ParseTemperatureC, imperial), "22 C", 22},
	{"degree sign", with(measure.ParseTemperatureC, imperial), "22°C", 22},
	{"degree sign apart", with(measure.ParseTemperatureC, imperial), "22 ° C", 22},
	{"bare Celsius", with(measure.ParseTemperatureC, metric), "22", 22},
	{"bare Fahrenheit", with(measure.ParseTemperatureC, imperial), "32", 0},
	{"degrees without a name", with(measure.ParseTemperatureC, imperial), "212°", 100},
	{"frost", with(measure.ParseTemperatureC, metric), "-5,5", -5.5},
	{"the two scales meet", with(measure.ParseTemperatureC, imperial), "-40", -40},
	{"kelvin", with(measure.ParseTemperatureC, metric), "273.15 K", 0},

	{"kilograms stuck", with(measure.ParseMassG, imperial), "1.5kg", 1500},
	{"pounds", with(measure.ParseMassG, metric), "3 lb", 1360.77711},
	{"pounds and ounces", with(measure.ParseMassG, metric), "3 lb 4 oz", 1474.175202500},
	{"grams", with(measure.ParseMassG, imperial), "200 g", 200},
	{"bare kilograms", with(measure.ParseMassG, metric), "2", 2000},
	{"bare small grams", with(measure.ParseSmallMassG, metric), "8", 8},
	{"bare ounces", with(measure.ParseSmallMassG, imperial), "1", 28.349523125},

	{"litres", with(measure.ParseVolumeL, imperial), "480 L", 480},
	{"cubic metres", with(measure.ParseVolumeL, imperial), "1.2 m3", 1200},
	{"cubic metres raised", with(measure.ParseVolumeL, imperial), "1,2 m³", 1200},
	{"cubic feet", with(measure.ParseVolumeL, metric), "17 cu. ft.", 481.386392064},
	{"cubic feet short", with(measure.ParseVolumeL, metric), "1ft3", 28.316846592},
	{"bare cubic feet", with(measure.ParseVolumeL, imperial), "1", 28.316846592},

	{"metres a second", with(measure.ParseSpeedMPS, imperial), "8 m/s", 8},
	{"kilometres an hour", with(measure.ParseSpeedMPS, imperial), "36km/h", 10},
	{"miles an hour", with(measure.ParseSpeedMPS, metric), "20 mph", 8.9408},
	{"knots", with(measure.ParseSpeedMPS, metric), "10 kn", 5.14444444444},
	{"Beaufort, upper edge of WMO table 306", with(measure.ParseSpeedMPS, metric), "Bft 4", 7.9},
	{"Beaufort after", with(measure.ParseSpeedMPS, metric), "5 bft", 10.7},
	{"force in words", with(measure.ParseSpeedMPS, imperial), "Force 6", 13.8},
	{"bare miles an hour", with(measure.ParseSpeedMPS, imperial), "10", 4.4704},

	{"hours and minutes", measure.ParseMinutes, "1h30", 90},
	{"clock style", measure.ParseMinutes, "1:30", 90},
	{"spelled", measure.ParseMinutes, "1 hour 30 minutes", 90},
	{"minutes", measure.ParseMinutes, "90 min", 90},
	{"bare minutes", measure.ParseMinutes, "90", 90},
	{"hours with a fraction", measure.ParseMinutes, "1,5 h", 90},
	{"days", measure.ParseMinutes, "2 d 3 h", 3060},
	{"seconds", measure.ParseMinutes, "30 s", 0.5},

	{"percent", measure.ParsePercent, "5 %", 5},
	{"percent bare", measure.ParsePercent, "99,5", 99.5},
	{"angle", measure.ParseAngleDeg, "45°", 45},
	{"radians", measure.ParseAngleDeg, "3.14159265358979 rad", 180},
	{"bar", with(measure.ParsePressurePa, imperial), "200 bar", 2e7},
	{"psi", with(measure.ParsePressurePa, metric), "2900psi", 19994796.1501872},
	{"bare bar", with(measure.ParsePressurePa, metric), "200", 2e7},
	{"kilopascal", with(measure.ParsePressurePa, metric), "2.5 kPa", 2500},
	// One pound-force is 4.4482216152605 N (NIST SP 811, from memory), one
	// kilogram-force 9.80665 N by definition.
	{"newton", measure.ParseForceN, "90 N", 90},
	{"kilonewton", measure.ParseForceN, "1,2kN", 1200},
	{"decanewton", measure.ParseForceN, "9 daN", 90},
	{"pounds as spools say it", measure.ParseForceN, "20 lb Test", 20 * 4.4482216152605},
	{"pounds of force", measure.ParseForceN, "20 lbf", 20 * 4.4482216152605},
	{"pounds and ounces", measure.ParseForceN, "1 lb 8 oz", 1.5 * 4.4482216152605},
	{"kilograms", measure.ParseForceN, "9 kg", 9 * 9.80665},
	{"a forecast between two forces", with(measure.ParseSpeedMPS, metric), "Bft 3-4", 7.9},
	{"number", measure.ParseNumber, "-2,5", -2.5},
	{"number with a fraction", measure.ParseNumber, "2 1/2", 2.5},
}

func TestParseOtherQuantities(t *testing.T) {
	for _, row := range otherQuantities {
		t.Run(row.name, func(t *testing.T) {
			got, err := row.parse(row.text)
			require.NoError(t, err)
			assert.InDelta(t, row.want, got, 1e-6)
		})
	}
}

func TestParseOthersRefuse(t *testing.T) {
	rows := []struct {
		name string
		err  func() error
		says string
	}{
		{"below absolute zero", func() error { _, err := measure.ParseTemperatureC("-300 C", metric); return err },
			"colder than anything can be"},
		{"a furnace", func() error { _, err := measure.ParseTemperatureC("5000", metric); return err }, "far too hot"},
		{"two temperatures", func() error { _, err := measure.ParseTemperatureC("20 C 30 C", metric); return err },
			"more than one"},
		{"temperature of the wrong kind", func() error { _, err := measure.ParseTemperatureC("20 m", metric); return err },
			"unknown unit m"},
		{"Beaufort without an upper edge", func() error { _, err := measure.ParseSpeedMPS("Bft 12", metric); return err },
			"whole, 0 to 11"},
		{"Beaufort and a half", func() error { _, err := measure.ParseSpeedMPS("Bft 4.5", metric); return err },
			"whole, 0 to 11"},
		{"two colons", func() error { _, err := measure.ParseMinutes("1:30:00"); return err }, "more than one colon"},
		{"minutes past the hour", func() error { _, err := measure.ParseMinutes("1:75"); return err },
			"unit of the last number"},
		{"third decimal", func() error { _, err := measure.ParseMoneyCents("9.905"); return err }, "more than two decimals"},
		{"money owed", func() error { _, err := measure.ParseMoneyCents("-9.90"); return err }, "less than nothing"},
		{"two amounts", func() error { _, err := measure.ParseMoneyCents("9.90 5.60"); return err }, "more than one amount"},
		{"half a balloon", func() error { _, err := measure.ParseCount("2.5"); return err }, "not whole"},
		{"count with a unit", func() error { _, err := measure.ParseCount("2 m"); return err }, "unknown unit"},
		{"negative count", func() error { _, err := measure.ParseCount("-2"); return err }, "less than nothing"},
		{"bare force", func() error { _, err := measure.ParseForceN("20"); return err }, "the unit is missing"},
		{"force of the wrong kind", func() error { _, err := measure.ParseForceN("20 m"); return err }, "unknown unit m"},
		{"negative force", func() error { _, err := measure.ParseForceN("-20 N"); return err }, "less than nothing"},
		{"a share or a percentage", func() error { _, err := measure.ParsePercent("0.05"); return err },
			"it could mean 0.05 % or 5 %"},
		{"falling forces", func() error { _, err := measure.ParseSpeedMPS("Bft 5-4", metric); return err },
			"starts with bft"},
		{"long text", func() error { _, err := measure.ParseNumber(string(make([]byte, 300))); return err }, "too long"},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			err := row.err()
			require.Error(t, err)
			assert.Contains(t, err.Error(), row.says)
			assert.NotContains(t, err.Error(), "\n")
		})
	}
}

func TestParseMoneyAndCounts(t *testing.T) {
	for text, cents := range map[string]int{
		"9.90": 990, "9,90": 990, "9": 900, "€ 9.90": 990, "$9.90": 990, "9,9 EUR": 990, "1,234.50": 123450, "0.05": 5,
	} {
		got, err := measure.ParseMoneyCents(text)
		require.NoError(t, err, text)
		assert.Equal(t, cents, got, text)
	}
	for text, count := range map[string]int{"48": 48, "1,200": 1200, "1.200": 1200, "1 200": 1200, "0": 0, " 7 ": 7} {
		got, err := measure.ParseCount(text)
		require.NoError(t, err, text)
		assert.Equal(t, count, got, text)
	}
}
