package calc_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc"
	"garlandry/calc/measure"
)

// bareUnits holds the units of a bare number of each kind, metric and imperial, as the table in README.md says.
var bareUnits = map[calc.Kind][2]string{
	calc.KindLength:      {"m", "ft"},
	calc.KindSmallLength: {"cm", "in"},
	calc.KindThinLength:  {"mm", "in"},
	calc.KindAltitude:    {"m", "ft"},
	calc.KindTemperature: {"C", "F"},
	calc.KindMass:        {"kg", "lb"},
	calc.KindSmallMass:   {"g", "oz"},
	calc.KindVolume:      {"L", "cu ft"},
	calc.KindSpeed:       {"m/s", "mph"},
	calc.KindPressure:    {"bar", "psi"},
	calc.KindAngle:       {"deg", "deg"},
	calc.KindPercent:     {"%", "%"},
	calc.KindHours:       {"h", "h"},
	calc.KindNumber:      {"", ""},
	calc.KindCount:       {"", ""},
	calc.KindPart:        {"", ""},
}

// TestBareNumbersHaveTheUnitOfREADME types a number without a unit and with the unit of README into every input of
// every calculator, in both systems. The results must be equal.
func TestBareNumbersHaveTheUnitOfREADME(t *testing.T) {
	tried := map[calc.Kind]int{}
	for _, c := range calc.All() {
		for _, in := range c.Inputs {
			units, single := bareUnits[in.Kind]
			if !single {
				continue
			}
			t.Run(c.Name+"/"+in.Key, func(t *testing.T) {
				for _, system := range []measure.System{measure.Metric, measure.Imperial} {
					unit := units[0]
					if system == measure.Imperial && !in.BareMetric {
						unit = units[1]
					}
					same := 0
					for _, number := range []string{"0.5", "1", "2", "6", "10", "12", "24", "26", "30", "64", "200"} {
						if in.Kind == calc.KindPercent && number == "0.5" {
							continue // it could mean 50 %, and is refused
						}
						raw := validFor(c, in.Key)
						raw[in.Key] = number + " " + unit
						whole, err := c.Compute(nil, raw, system)
						if err != nil {
							continue
						}
						raw[in.Key] = number
						bare, err := c.Compute(nil, raw, system)
						require.NoError(t, err, "%s=%s %s", in.Key, number, system)
						assert.Equal(t, whole.Outputs, bare.Outputs, "%s=%s %s", in.Key, number, system)
						same++
					}
					assert.Positive(t, same, "no number was taken, in %s", system)
					tried[in.Kind] += same
				}
			})
		}
	}
	for kind := range bareUnits {
		assert.Positive(t, tried[kind], kind)
	}
}

// validFor returns inputs of a calculator with which an input may be given.
func validFor(c calc.Calculator, key string) map[string]string {
	raw := c.Example.Raw()
	for _, in := range c.Inputs {
		if in.Required && raw[in.Key] == "" {
			raw[in.Key] = in.Example
		}
	}
	for also, text := range beside[c.Name+"/"+key] {
		if delete(raw, also); text != "" {
			raw[also] = text
		}
	}
	return raw
}

// beside lists what an input needs beside it, or cannot have ("").
var beside = map[string]map[string]string{
	"outline/span":       {"shape": "line"},
	"outline/rise":       {"shape": "parabola", "span": "2.4m"},
	"outline/sag":        {"shape": "catenary", "span": "2.4m"},
	"outline/diameter":   {"shape": "hoop"},
	"outline/part":       {"shape": "hoop", "diameter": "2m"},
	"heat/to":            {"size": "36"},
	"lift/to":            {"size": "36"},
	"size/to":            {"size": "36"},
	"heat/became":        {"size": "36", "to": "24in", "show_temp": "60 C", "fill_temp": "10 C"},
	"lift/cylinder_l":    {"cylinder_bar": "200"},
	"lift/floated":       {"size": "36", "to": "36in"},
	"lift/latex_g":       {"size": "36", "to": "36in"},
	"heat/latex_g":       {"size": "36", "to": "30in"},
	"size/latex_g":       {"size": "36", "to": "30in"},
	"lift/cylinder_bar":  {"cylinder_l": "10"},
	"dip/test_weight":    {"test_stays": "0.2mm"},
	"dip/tube_outer":     {"test_weight": "", "test_dip": "", "test_stays": "", "tube_wall": "0.5mm"},
	"dip/tube_wall":      {"test_weight": "", "test_dip": "", "test_stays": "", "tube_outer": "200mm"},
	"dip/test_stays":     {"test_dip": "300mm"},
	"tip/forward":        {"base_depth": "5m"},
	"tip/push":           {"push_at": "1m"},
	"tip/push_at":        {"push": "100 N"},
	"car/section_length": {"sections": "1"},
}

// TestBareListsHaveTheUnitOfREADME checks the lists: loads, points, boxes and a measured base.
func TestBareListsHaveTheUnitOfREADME(t *testing.T) {
	for _, row := range []struct{ calculator, key, bare, metric, imperial string }{
		{"dip", "loads", "sign 2 @ 1.5", "sign 2kg @ 1.5m", "sign 2lb @ 1.5ft"},
		{"outline", "points", "0,0; 3,1", "0m,0m; 3m,1m", "0ft,0ft; 3ft,1ft"},
		{"car", "cargo", "140 x 100 x 80", "140 x 100 x 80 cm", "140 x 100 x 80 in"},
		{"car", "door", "90 x 70", "90 x 70 cm", "90 x 70 in"},
		{"clusters", "measured", "4 in 2", "4 in 2m", "4 in 2ft"},
		{"clusters", "recipe", "2x11@10", "2x11@10in", "2x11@10in"},
		{"car", "balloons", "40 x 11@10", "40 x 11@10in", "40 x 11@10in"},
	} {
		t.Run(row.calculator+"/"+row.key, func(t *testing.T) {
			c, _ := calc.Find(row.calculator)
			taken := 0
			for system, same := range map[measure.System]string{measure.Metric: row.metric,
				measure.Imperial: row.imperial} {
				raw := c.Example.Raw()
				if row.key == "points" {
					raw = map[string]string{"shape": "curve"}
				}
				raw[row.key] = same
				whole, wholeErr := c.Compute(nil, raw, system)
				raw[row.key] = row.bare
				bare, bareErr := c.Compute(nil, raw, system)
				require.Equal(t, wholeErr == nil, bareErr == nil, "%v, %v", wholeErr, bareErr)
				assert.Equal(t, whole.Outputs, bare.Outputs, system)
				if wholeErr == nil {
					taken++
				}
			}
			assert.Positive(t, taken)
		})
	}
}

// TestInchesTypedAsCentimetresAreNoticed checks the note for a bare number that makes more sense in inches.
func TestInchesTypedAsCentimetresAreNoticed(t *testing.T) {
	for text, noticed := range map[string]bool{"10": true, "10 cm": false, "25": false, "10in": false} {
		result, err := computeNamed("size", map[string]string{"size": "11", "to": text}, measure.Metric)
		require.NoError(t, err, text)
		said := slices.Contains(result.Notes, "Read as 10 cm. If you mean inches, write 10 in.")
		assert.Equal(t, noticed, said, "%s: %v", text, result.Notes)
	}
}
