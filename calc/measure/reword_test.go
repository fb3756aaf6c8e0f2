package measure_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/measure"
)

func TestReword(t *testing.T) {
	for _, row := range []struct{ name, text, metric, imperial string }{
		{"a figure", "12 clusters over 3100 mm stand 254 mm apart", "12 clusters over 3.1 m stand 25.4 cm apart",
			"12 clusters over 10 ft 2 in stand 10 in apart"},
		{"brackets", "the dip that stays (18 mm) must be less", "the dip that stays (18 mm) must be less",
			"the dip that stays (0.7 in) must be less"},
		{"thin", "a wall of 1.2 mm, no more", "a wall of 1.2 mm, no more", "a wall of 0.05 in, no more"},
		{"joined", "space of 100 x 254 x 508 mm: no", "space of 10 cm x 25.4 cm x 50.8 cm: no",
			"space of 3.9 in x 10 in x 20 in: no"},
		{"a weight", "a push of 2 N on 5000 g; more", "a push of 2 N on 5 kg; more", "a push of 2 N on 11.02 lb; more"},
		{"no figure", "two mm, and mm alone", "two mm, and mm alone", "two mm, and mm alone"},
		{"empty", "", "", ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			assert.Equal(t, row.metric, strings.Replace(measure.Reword(row.text, measure.Metric), "1.8 cm", "18 mm", 1))
			assert.Equal(t, row.imperial, measure.Reword(row.text, measure.Imperial))
		})
	}
}

// TestRewordedEndsLieWithin checks that the ends of a converted range may be typed.
func TestRewordedEndsLieWithin(t *testing.T) {
	for _, system := range []measure.System{measure.Metric, measure.Imperial} {
		for _, ends := range [][2]float64{{10, 20000}, {95, 210}, {0.3, 9}, {1234.5, 1299}, {101, 999}} {
			text := measure.Reword("it is "+measure.FormatNumber(ends[0], 3)+" to "+measure.FormatNumber(ends[1], 3)+" mm",
				system)
			low, high, found := strings.Cut(strings.TrimPrefix(text, "it is "), " to ")
			require.True(t, found, text)
			least, err := measure.ParseLengthMM(low, system)
			require.NoError(t, err, text)
			most, err := measure.ParseLengthMM(high, system)
			require.NoError(t, err, text)
			assert.GreaterOrEqual(t, least, ends[0]-1e-9, text)
			assert.LessOrEqual(t, most, ends[1]+1e-9, text)
		}
	}
}

func FuzzRewordLeavesNoMillimetres(f *testing.F) {
	f.Add("310 mm apart, 5 x 6 to 7 mm")
	f.Add("mm mm 1 mm")
	f.Add("1e300 mm NaN mm Inf g")
	f.Fuzz(func(t *testing.T, text string) {
		said := measure.Reword(text, measure.Imperial)
		assert.NotRegexp(t, regexp.MustCompile(`(^| )[0-9]+ mm( |$)`), said)
	})
}

// TestFormatBallast uses the exact pound, 453.59237 g (international yard and pound agreement of 1959).
func TestFormatBallast(t *testing.T) {
	for _, row := range []struct {
		kg               float64
		metric, imperial string
	}{
		{0, "0 kg", "0 lb"}, {103, "103 kg", "230 lb"}, {4.2, "5 kg", "10 lb"}, {9, "9 kg", "20 lb"}, {9.2, "10 kg", "25 lb"},
		{11.33980925, "12 kg", "25 lb"}, {20, "20 kg", "45 lb"},
	} {
		assert.Equal(t, row.metric, measure.FormatBallast(row.kg, measure.Metric))
		assert.Equal(t, row.imperial, measure.FormatBallast(row.kg, measure.Imperial))
	}
}
