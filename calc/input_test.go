package calc_test

import (
	"errors"
	"maps"
	"strings"
	"testing"

	"garlandry/calc"
	"garlandry/calc/measure"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// checkRefusal checks what every refusal must be: an *InputError of one line that begins with the input and ends with
// an example, if the input takes one beside the others.
func checkRefusal(t *testing.T, err error, key string) {
	t.Helper()
	var refused *calc.InputError
	require.True(t, errors.As(err, &refused), "%v", err)
	if key != "" {
		assert.Equal(t, key, refused.Input)
	}
	assert.NotContains(t, err.Error(), "\n")
	assert.True(t, strings.HasPrefix(err.Error(), refused.Input+": "))
	if refused.Example != "" {
		assert.Contains(t, err.Error(), "; for example "+refused.Input+"=")
	}
}

// TestBadInputs tries nonsense, out-of-range and missing text for every input of every calculator.
func TestBadInputs(t *testing.T) {
	nonsense := map[calc.Kind][]string{
		calc.KindRecipe:  {"2x11@40", "x", "2x7", "99x11"},
		calc.KindChoice:  {"zzz", "1"},
		calc.KindFlag:    {"maybe", "2"},
		calc.KindBags:    {"100", "0:5", "100:-1", "100:1.999", "a:b", ":", "200000:1"},
		calc.KindWeights: {"coral", "coral -1", ",", "coral 3, ink"},
		calc.KindLoads: {
			"sign",
			"sign 2kg @",
			"sign 2 m",
			"cloth 1kg from 2m to 1m",
			"cloth 1kg from",
			"sign 2kg along sideways",
			"sign -",
		},
		calc.KindPoints:   {"0,0", "0;1", "a,b; c,d", "0,0,0; 1,1,1"},
		calc.KindBalloons: {"11@10", "-3 x 11", "3 x 7", "3 x", "x 11"},
		calc.KindBox:      {"140", "140 x 100 x 80 x 60 cm", "0 x 0 cm", "a x b", "140 cm x 3 kg"},
		calc.KindMeasured: {"12", "in 3 m", "0 in 3 m", "12 in", "12 in 3 kg"},
		calc.KindSize:     {"7", "11.5", "-11", "in"},
	}
	for _, c := range calc.All() {
		for _, in := range c.Inputs {
			t.Run(c.Name+"/"+in.Key, func(t *testing.T) {
				bad := append([]string{"??", "NaN", "1e999"}, nonsense[in.Kind]...)
				if in.Kind != calc.KindWeights { // this may be the name of a colour
					bad = append(bad, "3 parsec")
				}
				for _, text := range bad {
					raw := validFor(c, in.Key)
					raw[in.Key] = text
					_, err := c.Compute(nil, raw, measure.Metric)
					require.Error(t, err, "%q", text)
					checkRefusal(t, err, in.Key)
					assert.Contains(t, err.Error(), in.Key+"=", "%q", text)
				}
				if in.Required {
					raw := c.Example.Raw()
					raw[in.Key] = "  "
					_, err := c.Compute(nil, raw, measure.Metric)
					require.Error(t, err)
					checkRefusal(t, err, in.Key)
					assert.Contains(t, err.Error(), "missing")
				}
				outOfRange(t, c, in)
			})
		}
	}
}

// siUnits holds the units of the kinds with a single number.
var siUnits = map[calc.Kind]string{
	calc.KindLength:      "mm",
	calc.KindSmallLength: "mm",
	calc.KindThinLength:  "mm",
	calc.KindAltitude:    "m",
	calc.KindTemperature: "C",
	calc.KindMass:        "g",
	calc.KindSmallMass:   "g",
	calc.KindVolume:      "L",
	calc.KindSpeed:       "m/s",
	calc.KindPressure:    "Pa",
	calc.KindForce:       "N",
	calc.KindAngle:       "deg",
	calc.KindPercent:     "%",
	calc.KindNumber:      "",
	calc.KindCount:       "",
	calc.KindPart:        "",
	calc.KindHours:       "h",
}

// outOfRange exceeds both ends of a range, and parses the range in the error.
func outOfRange(t *testing.T, c calc.Calculator, in calc.Input) {
	t.Helper()
	unit, single := siUnits[in.Kind]
	if !single {
		assert.LessOrEqual(t, in.Max, in.Min, "an unchecked range")
		return
	}
	require.Greater(t, in.Max, in.Min, "a number without a range")
	width := in.Max - in.Min
	step := width * 0.01
	if in.Kind == calc.KindCount {
		step = max(1, float64(int(step)))
	}
	for _, x := range []float64{in.Min - step, in.Max + step} {
		raw := c.Example.Raw()
		raw[in.Key] = measure.FormatNumber(x, 6) + " " + unit
		_, err := c.Compute(nil, raw, measure.Metric)
		require.Error(t, err, raw[in.Key])
		checkRefusal(t, err, in.Key)
		if x >= 0 {
			assert.Contains(t, err.Error(), in.Range(measure.Metric))
		}
	}
}

// TestExamplesOfInputsAreReadable checks that every example and every default of an input is accepted as text, in both
// systems.
func TestExamplesOfInputsAreReadable(t *testing.T) {
	for _, c := range calc.All() {
		for _, in := range c.Inputs {
			t.Run(c.Name+"/"+in.Key, func(t *testing.T) {
				for _, system := range []measure.System{measure.Metric, measure.Imperial} {
					for _, text := range []string{in.Example, in.Default, in.DefaultText(system)} {
						if text == "" {
							continue
						}
						raw := c.Example.Raw()
						raw[in.Key] = text
						if _, err := c.Compute(nil, raw, system); err != nil {
							var refused *calc.InputError
							require.True(t, errors.As(err, &refused))
							assert.NotContains(t, err.Error(), "cannot read")
							assert.NotContains(t, err.Error(), "out of range")
							assert.NotContains(t, err.Error(), "no such")
						}
					}
				}
			})
		}
	}
}

// TestShownLimitsAreAccepted checks that each end of a range is itself accepted as shown in either system, since it is
// rounded inwards.
func TestShownLimitsAreAccepted(t *testing.T) {
	for _, c := range calc.All() {
		for _, in := range c.Inputs {
			if in.Max <= in.Min {
				continue
			}
			for _, system := range []measure.System{measure.Metric, measure.Imperial} {
				low, high, found := strings.Cut(in.Range(system), " to ")
				require.True(t, found, "%s %s", c.Name, in.Key)
				for _, text := range []string{low, high} {
					raw := c.Example.Raw()
					raw[in.Key] = text
					if _, err := c.Compute(nil, raw, system); err != nil {
						assert.NotContains(t, err.Error(), in.Key+": out of range", "%s %s=%s of %s", c.Name, in.Key, text,
							in.Range(system))
						assert.NotContains(t, err.Error(), in.Key+": cannot read", "%s %s=%s", c.Name, in.Key, text)
					}
				}
			}
		}
	}
}

// TestMissingInputsSayWhatTheyMayBe checks that an error for a missing input names what is allowed, and that a refusal
// gives exactly one example.
func TestMissingInputsSayWhatTheyMayBe(t *testing.T) {
	for _, c := range calc.All() {
		for _, in := range c.Inputs {
			if in.Kind != calc.KindText {
				assert.NotEmpty(t, in.Range(measure.Imperial), "%s %s", c.Name, in.Key)
			}
		}
	}
	for _, recipe := range []string{"", "2x11@99", "9x11@10", "2x7", "2x11@", "x"} {
		_, err := computeNamed("clusters", map[string]string{"length": "3m", "recipe": recipe}, measure.Imperial)
		require.Error(t, err, recipe)
		assert.Equal(t, 1, strings.Count(err.Error(), "example"), err.Error())
		assert.NotContains(t, err.Error(), "as in", err.Error())
	}
}

// TestRefusalsAreInTheReadersUnits checks the units of refusals.
func TestRefusalsAreInTheReadersUnits(t *testing.T) {
	_, err := computeNamed("dip",
		map[string]string{"span": "10ft", "loads": "sign 2lb @ 11ft", "test_weight": "3lb", "test_dip": "0.5in"},
		measure.Imperial)
	require.Error(t, err)
	assert.Contains(t, err.Error(), "from 0 in to 10 ft")
	_, err = computeNamed("lift", map[string]string{"size": "11", "cylinder_l": "10", "cylinder_bar": "9999"},
		measure.Imperial)
	require.Error(t, err)
	assert.NotContains(t, err.Error(), "psi", "the key names bar")
}

// clashes lists inputs that do not go together, the input that is refused and the text of the refusal.
var clashes = []struct {
	name, calculator string
	inputs           map[string]string
	refused, says    string
}{
	{"unknown input", "clusters", map[string]string{"lenght": "3m"}, "lenght", "no such input; allowed: length, recipe"},
	{"push and measured", "clusters",
		map[string]string{"length": "3m", "recipe": "2x11", "push": "1", "measured": "12 in 3.1m"}, "push", "not both"},
	{"a base that stands apart", "clusters", map[string]string{"length": "3m", "recipe": "2x11", "measured": "2 in 10m"},
		"measured", "2 clusters"},
	{"overfilled", "size", map[string]string{"size": "11", "to": "14in"}, "to",
		"which takes 3.3 in (8.4 cm) to 12.1 in (30.7 cm)"},
	{"inches meant", "size", map[string]string{"size": "11", "to": "5"}, "to", "not possible for size 11"},
	{"a modelling balloon", "size", map[string]string{"size": "260"}, "size", "modelling"},
	{"cylinder without pressure", "lift", map[string]string{"size": "11", "cylinder_l": "10"}, "cylinder_bar", "missing"},
	{"pressure without cylinder", "lift", map[string]string{"size": "11", "cylinder_bar": "200"}, "cylinder_l",
		"missing"},
	{"two sizes to match with", "match", map[string]string{"recipe": "2x11", "with": "1x5+1x11"}, "with", "one size"},
	{"arch without height", "outline", map[string]string{"shape": "arch", "width": "2m"}, "height", "an arch needs it"},
	{"hoop without diameter", "outline", map[string]string{"shape": "hoop"}, "diameter", "a hoop needs it"},
	{"curve without points", "outline", map[string]string{"shape": "curve"}, "points", "missing"},
	{"no share at all", "split", map[string]string{"total": "5", "weights": "a 0, b 0"}, "weights", "weight"},
	{"bar by nothing", "dip", map[string]string{"span": "2m", "loads": "sign 1kg"}, "test_weight", "bench test"},
	{"half a bench test", "dip", map[string]string{"span": "2m", "loads": "sign 1kg", "test_weight": "1kg"}, "test_dip",
		"missing"},
	{"half a tube", "dip", map[string]string{"span": "2m", "loads": "sign 1kg", "tube_outer": "28"}, "tube_wall",
		"missing"},
	{
		"bench test and tube",
		"dip",
		map[string]string{"span": "2m", "loads": "sign 1kg", "test_weight": "1kg", "test_dip": "9",
			"tube_outer": "28", "tube_wall": "1"},
		"tube_outer",
		"not both",
	},
	{"stays more than it dips", "dip",
		map[string]string{"span": "2m", "loads": "sign 1kg", "test_weight": "1kg", "test_dip": "9", "test_stays": "10"},
		"test_stays", "must be less than the dip"},
	{"load beside the bar", "dip",
		map[string]string{"span": "2m", "loads": "sign 1kg @ 3m", "test_weight": "1kg", "test_dip": "9"}, "loads", "sign"},
	{
		"limits crossed",
		"dip",
		map[string]string{"span": "2m", "loads": "sign 1kg", "test_weight": "1kg", "test_dip": "9",
			"visible": "50", "useless": "100"},
		"useless",
		"must be smaller than",
	},
	{"wall of a solid rod's half", "dip",
		map[string]string{"span": "2m", "loads": "sign 1kg", "tube_outer": "10", "tube_wall": "8"}, "tube_wall", "wall"},
	{"neither wind nor push", "tip",
		map[string]string{"width": "2m", "height": "2m", "weight": "20kg", "base_depth": "1m"}, "wind", "missing"},
	{"push without a height", "tip",
		map[string]string{"width": "2m", "height": "2m", "weight": "20kg", "base_depth": "1m", "push": "100 N"}, "push_at",
		"missing"},
	{"still air", "tip",
		map[string]string{"width": "2m", "height": "2m", "weight": "20kg", "base_depth": "1m", "wind": "0"}, "wind",
		"neither wind nor a push"},
	{
		"falls by itself",
		"tip",
		map[string]string{"width": "2m", "height": "2m", "weight": "20kg", "base_depth": "1m",
			"wind": "5", "forward": "60cm"},
		"forward",
		"falls by itself",
	},
	{"strength without unit", "line", map[string]string{"weight": "1kg", "strength": "20"}, "strength",
		"the unit is missing"},
	{"less safe than five", "line", map[string]string{"weight": "1kg", "strength": "90 N", "factor": "2"}, "factor",
		"5 to 50"},
	{"no car", "car", map[string]string{"clusters": "3"}, "cargo", "litres"},
	{"flat car", "car", map[string]string{"cargo": "140 x 100 cm", "clusters": "3"}, "cargo", "three sides"},
	{"door with three sides", "car", map[string]string{"litres": "1000", "door": "1 x 1 x 1 m", "clusters": "3"}, "door",
		"two sides"},
	{"nothing to carry", "car", map[string]string{"litres": "1000"}, "clusters", "to carry"},
	{"sections without length", "car", map[string]string{"litres": "1000", "sections": "2"}, "section_length", "missing"},
}

// TestInputsThatDoNotGoTogether checks inputs that are valid alone but not together.
func TestInputsThatDoNotGoTogether(t *testing.T) {
	for _, row := range clashes {
		t.Run(row.name, func(t *testing.T) {
			_, err := computeNamed(row.calculator, row.inputs, measure.Metric)
			require.Error(t, err)
			checkRefusal(t, err, row.refused)
			assert.Contains(t, err.Error(), row.says)
		})
	}
}

// TestOutputsDoNotDependOnTheSystem checks that results are the same in both systems of units if every quantity has its
// unit.
func TestOutputsDoNotDependOnTheSystem(t *testing.T) {
	for _, c := range calc.All() {
		t.Run(c.Name, func(t *testing.T) {
			metric, err := c.Compute(nil, c.Example.Raw(), measure.Metric)
			require.NoError(t, err)
			imperial, err := c.Compute(nil, c.Example.Raw(), measure.Imperial)
			require.NoError(t, err)
			assert.Equal(t, metric.Outputs, imperial.Outputs)
			assert.Equal(t, metric.Used, imperial.Used)
			again, err := c.Compute(nil, maps.Clone(c.Example.Raw()), measure.Metric)
			require.NoError(t, err)
			assert.Equal(t, metric.Working, again.Working)
			assert.Equal(t, metric.Drawing, again.Drawing)
		})
	}
}

// TestWaysOfWriting checks different ways to write the same thing.
func TestWaysOfWriting(t *testing.T) {
	for name, row := range map[string]struct {
		calculator, key string
		ways            []string
	}{
		"prices": {"bags", "bags", []string{"100:9.90, 50:5.60", "100 @ 9.90, 50 @ 5.60",
			"100 for 9,90; 50 for 5.60", "100 at $9.90; 50=5.6"}},
		"loose balloons": {"car", "balloons", []string{"120 x 11@10, 40 x 5", "120 11@10, 40 5-inch",
			"120 × 11 inch; 40 x 5\""}},
		"a recipe": {"clusters", "recipe", []string{"2x11@10 + 1x18@16", "2 x 11-inch @ 10 + 18@16",
			"1×18\" @ 16 in + 2×11", "2x11@10, 1x18@16", "2x11@10,1x18@16", "2x11@25.4cm, 18@406.4 mm"}},
		"a sized-to": {"clusters", "recipe", []string{"2x11@9.5", "2x11@9 1/2", "2x11@9½", "2x11@9,5", "2x11@24.13cm",
			"2x11 @ 9 1/2 in", "1x11@9,5, 1x11@9.5"}},
		"a line's test":   {"line", "strength", []string{"20 lb", "20 lb test", "20lb Test", "320 oz"}},
		"a metal":         {"dip", "material", []string{"aluminium", "aluminum", "Aluminum", "alu"}},
		"litres of a car": {"car", "cargo", []string{"1200 l", "1200 litres", "1.2 m3"}},
		"loads": {"dip", "loads", []string{"sign 2kg", "sign 2 kg in the middle", "sign 2000 g @ middle",
			"sign: 2kg @ 120 cm"}},
		"a measured base": {"clusters", "measured", []string{"12 in 1.83m", "12 clusters in 1.83 m", "12 over 183cm",
			"12: 1.83 m"}},
		"shares":           {"split", "weights", []string{"3, 2, 1", "3:2:1", "3; 2; 1"}},
		"part of an oval":  {"outline", "part", []string{"75 %", "0.75", "3/4"}},
		"points of a line": {"outline", "points", []string{"0,0; 1.2,0.8; 2.4,0", "0,0 1.2,0.8 2.4,0"}},
	} {
		t.Run(name, func(t *testing.T) {
			c, known := calc.Find(row.calculator)
			require.True(t, known)
			raw := c.Example.Raw()
			var first map[string]any
			for _, way := range row.ways {
				raw[row.key] = way
				result, err := c.Compute(nil, raw, measure.Metric)
				require.NoError(t, err, way)
				if first == nil {
					first = result.Outputs
				}
				assert.Equal(t, first, result.Outputs, way)
			}
		})
	}
}
