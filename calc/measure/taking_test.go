package measure_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/measure"
)

// everyParser holds all parsers, with a float for every result.
var everyParser = map[string]func(text string, s measure.System) (float64, error){
	"length": measure.ParseLengthMM, "small length": measure.ParseSmallLengthMM,
	"thin length": measure.ParseThinLengthMM,
	"offset":      measure.ParseOffsetMM, "altitude": measure.ParseAltitudeM, "temperature": measure.ParseTemperatureC,
	"mass": measure.ParseMassG, "small mass": measure.ParseSmallMassG, "volume": measure.ParseVolumeL,
	"speed": measure.ParseSpeedMPS, "pressure": measure.ParsePressurePa,
	"force":   func(text string, _ measure.System) (float64, error) { return measure.ParseForceN(text) },
	"angle":   func(text string, _ measure.System) (float64, error) { return measure.ParseAngleDeg(text) },
	"percent": func(text string, _ measure.System) (float64, error) { return measure.ParsePercent(text) },
	"number":  func(text string, _ measure.System) (float64, error) { return measure.ParseNumber(text) },
	"minutes": func(text string, _ measure.System) (float64, error) { return measure.ParseMinutes(text) },
	"count": func(text string, _ measure.System) (float64, error) {
		n, err := measure.ParseCount(text)
		return float64(n), err
	},
	"money": func(text string, _ measure.System) (float64, error) {
		cents, err := measure.ParseMoneyCents(text)
		return float64(cents), err
	},
}

// TestErrorsOfferOnlyWhatIsRead feeds the examples of each parser's errors back to it.
func TestErrorsOfferOnlyWhatIsRead(t *testing.T) {
	for name, parse := range everyParser {
		for _, text := range []string{"", "??", "1e99", "-1e99 mm", "3 parsec", "1 2 3"} {
			_, err := parse(text, measure.Metric)
			require.Error(t, err, "%s %q", name, text)
			_, examples, found := strings.Cut(err.Error(), " such as ")
			require.True(t, found, err.Error())
			for _, example := range strings.Split(strings.ReplaceAll(examples, " or ", ", "), ", ") {
				for _, system := range []measure.System{measure.Metric, measure.Imperial} {
					_, err := parse(example, system)
					assert.NoError(t, err, "%s offers %q", name, example)
				}
			}
		}
	}
}

func TestTaking(t *testing.T) {
	is := func(list ...string) func(string) bool {
		return func(example string) bool { return strings.Contains("|"+strings.Join(list, "|")+"|", "|"+example+"|") }
	}
	for _, row := range []struct {
		name, want string
		takes      func(string) bool
		text       string
	}{
		{"none", "a length such as 3.2 m, 320 cm or 10 ft 6 in", nil, "a length"},
		{"one", "a length such as 3.2 m, 320 cm or 10 ft 6 in", is("320 cm"), "a length such as 320 cm"},
		{"two", "a length such as 3.2 m, 320 cm or 10 ft 6 in", is("3.2 m", "10 ft 6 in"),
			"a length such as 3.2 m or 10 ft 6 in"},
		{"a comma before", "a force with its unit, such as 90 N, 20 lb or 9 kg", is(), "a force with its unit"},
		{"a list as one", "bags, such as 100:9.90, 50:5.60", is("100:9.90, 50:5.60"),
			"bags, such as 100:9.90, 50:5.60"},
		{"without examples", "yes or no", nil, "yes or no"},
	} {
		t.Run(row.name, func(t *testing.T) {
			refused := &measure.Error{Text: "x", Want: row.want, Why: "no number in it"}
			assert.Equal(t, `cannot read "x" (no number in it): write `+row.text, refused.Taking(row.takes))
		})
	}
	_, err := measure.ParseLengthMM("x", measure.Metric)
	var refused *measure.Error
	require.True(t, errors.As(err, &refused))
	assert.Equal(t, err.Error(), refused.Taking(func(string) bool { return true }))
}
