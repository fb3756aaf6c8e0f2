package measure_test

import (
	"errors"
	"testing"

	"garlandry/calc/measure"

	"github.com/stretchr/testify/assert"
)

func TestInUnits(t *testing.T) {
	for _, row := range []struct{ text, metric, imperial string }{
		{"8ft", "2.4 m", "8ft"},
		{"6ft", "2 m", "6ft"},
		{"10 ft", "3 m", "10 ft"},
		{"10in", "25 cm", "10in"},
		{"20 lb", "9 kg", "20 lb"},
		{"50 cu ft", "1.4 m3", "50 cu ft"},
		{"10 F", "-12 C", "10 F"},
		{"72F", "20 C", "72F"},
		{"3.2 m", "3.2 m", "10 ft"},
		{"45cm", "45cm", "18 in"},
		{"0.3m", "0.3m", "12 in"},
		{"0 m", "0 m", "0 ft"},
		{"1.2mm", "1.2mm", "0.05 in"},
		{"2kg", "2kg", "4 lb"},
		{"90 N", "90 N", "20 lb"},
		{"8 m/s", "8 m/s", "18 mph"},
		{"14 L", "14 L", "0.5 cu ft"},
		{"22C", "22C", "70 F"},
		{"Example: a door garland, 8 ft wide, doors at 11.", "Example: a door garland, 2.4 m wide, doors at 11.",
			"Example: a door garland, 8 ft wide, doors at 11."},
		{"sign 2kg @ 1.2m, cloth 1.8kg along", "sign 2kg @ 1.2m, cloth 1.8kg along", "sign 4 lb @ 4 ft, cloth 4 lb along"},
		{"140 x 100 x 80 cm", "140 x 100 x 80 cm", "60 x 40 x 30 in"},
		{"(8 x 7 ft)", "(2.4 x 2 m)", "(8 x 7 ft)"},
		{"2.4 m; 3 m", "2.4 m; 3 m", "8 ft; 10 ft"},
		{"12 in 3.1m", "12 in 3.1m", "12 in 10 ft"},
		{"2x11@10 + 1x18@16", "2x11@10 + 1x18@16", "2x11@10 + 1x18@16"},
		{"120 x 11@10, 40 x 5", "120 x 11@10, 40 x 5", "120 x 11@10, 40 x 5"},
		{"0,0; 1.2,0.8; 2.4,0", "0,0; 1.2,0.8; 2.4,0", "0,0; 1.2,0.8; 2.4,0"},
		{"100:9.90, 50:5.60", "100:9.90, 50:5.60", "100:9.90, 50:5.60"},
		{"75%", "75%", "75%"},
		{"", "", ""},
	} {
		t.Run(row.text, func(t *testing.T) {
			assert.Equal(t, row.metric, measure.InUnits(row.text, measure.Metric))
			assert.Equal(t, row.imperial, measure.InUnits(row.text, measure.Imperial))
		})
	}
}

// TestErrorsSpeakOneSystem checks that every reader can name examples in either system alone.
func TestErrorsSpeakOneSystem(t *testing.T) {
	readers := map[string]func(string, measure.System) (float64, error){
		"length": measure.ParseLengthMM, "small length": measure.ParseSmallLengthMM, "mass": measure.ParseMassG,
		"thin length": measure.ParseThinLengthMM, "offset": measure.ParseOffsetMM, "altitude": measure.ParseAltitudeM,
		"temperature": measure.ParseTemperatureC, "small mass": measure.ParseSmallMassG, "speed": measure.ParseSpeedMPS,
		"volume": measure.ParseVolumeL,
		"force":  func(text string, _ measure.System) (float64, error) { return measure.ParseForceN(text) },
		"pair": func(text string, s measure.System) (float64, error) {
			x, _, err := measure.ParsePairMM(text, s)
			return x, err
		},
	}
	for name, read := range readers {
		for _, s := range []measure.System{measure.Metric, measure.Imperial} {
			_, err := read("x", s)
			said := measure.Say(err, s)
			assert.Contains(t, said, "such as ", name)
			assert.True(t, measure.Speaks(said, s), "%s: %s", name, said)
			assert.NotEqual(t, err.Error(), said, name)
		}
	}
	assert.Equal(t, "other", measure.Say(errors.New("other"), measure.Metric))
}
