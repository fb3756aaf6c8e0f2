package calc_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
	"testing"

	"garlandry/calc"
	"garlandry/calc/measure"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the goldens anew")

// grids are inputs of every calculator; values of one key are parted by bars and
// every combination is run.
func grids() map[string][]string {
	recipes := "recipe=2x11@9.5|1x11@10|3x11@10|4x5@4.5|1x36@33|2x11@10 + 1x18@16|2x5@4 + 2x11@10 + " +
		"1x18@16|8x11@11|4x11@10 + 2x24@20"
	few := "recipe=2x11@9.5|2x11@10 + 1x18@16|8x11@11"
	push := "push=|0.5|2.5"
	return map[string][]string{
		"clusters": {"length=5cm|1m|10ft|7.31m|31m|300m", recipes, push},
		"accents":  {"length=1m|31m", few, push, "accent=2x5@4.5|1x11@10", "coverage=80%|95%|99.5%"},
		"match":    {recipes, "with=11@10|5@4.5|18@16|36@33", "max_duplets=1|4|8"},
		"outline": {
			"shape=line|arc|arch|hoop|ellipse|catenary|parabola|curve",
			"width=11ft",
			"height=0.7m|3m",
			"span=2.4m",
			"rise=0.4m",
			"sag=0.1m|0.9m",
			"diameter=1.9m",
			"part=75%|100%",
			"points=0,0; 1.2,0.8; 2.4,0",
			"section_max=|1.8m",
		},
		"column": {"height=20cm|6ft|2.31m|5m", recipes, push},
		"wall":   {"width=8ft|2.4m|5m", "height=20cm|2.31m", few, push, "columns_apart=|45cm"},
		"size":   {"size=5|9|10|11|12|16|18|24|36", "to="},
		"heat":   {"size=5|11|36", "to=", "fill_temp=5C|20C|35C", "show_temp=0C|22C|45C", "show_altitude=0|1500m"},
		"lift": {
			"size=5|11|18|36",
			"to=",
			"temp=0C|21C|38C",
			"altitude=0|2000m",
			"extra_g=0|5",
			"cylinder_l=10|50",
			"cylinder_bar=150|200",
		},
		"spares": {"need=0|1|7|96|200|2400|100000", "fail=0|2.5|5|12.5|40", "sure=50|90|99|99.9"},
		"split": {
			"total=0|1|7|96|219|100000",
			"weights=3,2,1|1,1,1|coral 53000, sand 24000, blush 23000|0.1,0.1,0.8|5,0,5|1,1,1,1,1,1,1",
		},
		"bags": {
			"need=0|1|99|219|1001|25000",
			"have=0|40",
			"bags=100:9.90, 50:5.60, 25:3.20|72:7.10, 15:1.99|1:0.35|100:0",
		},
		"dip": {
			"span=1.8m|2.4m|3.6m",
			"loads=sign 2kg @ 1.2m, cloth 1.8kg along|3kg|1kg @ 0.3m, 2kg from 0.5m to 1.5m",
			"test_span=2.4m",
			"test_weight=1.55kg",
			"test_dip=12mm|18mm",
			"test_stays=0|6mm",
		},
		"tip": {
			"width=1m|2.4m",
			"height=2m|2.5m",
			"bottom=0|0.25m",
			"weight=8kg|40kg",
			"base_depth=0.6m|1m",
			"solidity=40%|100%",
			"wind=Bft 3|8 m/s|12 m/s",
		},
		"line": {"weight=0.4kg|2kg|15kg", "points=1|2|4", "angle=0|45|60", "strength=90 N|400 N", "over_people=no|yes"},
		"car": {
			"cargo=180 x 110 x 85 cm|3 x 1.7 x 1.8 m",
			"door=|100 x 75 cm",
			few,
			"clusters=0|20|200",
			"balloons=|120 x 11@10, 40 x 5",
			"sections=0|3",
			"section_length=2.4m|6m",
		},
	}
}

// moreGrids are the inputs that the first grids leave out.
func moreGrids() map[string][][]string {
	tube := []string{"span=1.8m|3m", "loads=sign 2kg @ 1.2m, cloth 1.8kg along|3kg", "tube_outer=25mm|40mm",
		"tube_wall=1.2mm", "material=steel|aluminium|wood|pvc", "joints=0|1|3"}
	return map[string][][]string{
		"clusters": {
			{"length=3.1m", "recipe=2x11@9.5|3x11@10|2x11@10 + 1x18@16", "measured=12 in 3.1m|15 in 3.1m|9 in 2.2m|18 in 3.1m"},
		},
		"accents": {{"length=3.1m", "recipe=2x11@9.5", "measured=17 in 3.1m|24 in 3.1m", "coverage=97%"}},
		"column":  {{"height=2m", "recipe=3x11@10", "measured=12 in 3.1m|15 in 3.1m"}},
		"wall": {{"width=2m", "height=2m", "recipe=3x11@10|1x11@10 + 1x24@22|1x5@4.5 + 1x18@16", "measured=|14 in 3.1m"},
			{"width=2m|9m", "height=2m", "recipe=1x11@10 + 1x24@22|1x5@4.5 + 1x18@16|2x5@4 + 2x11@10 + 1x18@16", "push=|1.5"}},
		"size": {
			{"size=5", "to=2in|4.5in|5in|13cm"},
			{"size=11", "to=5in|9in|10in|11in|27cm"},
			{"size=18|24", "to=14in|16in|17.5in"},
			{"size=36", "to=20in|33in|36in"},
			{"size=11", "to=10in", "latex_g=|2.5|3.1"},
		},
		"heat": {
			{"size=11", "to=9in|10in|11in", "show_temp=0C|35C", "fill_altitude=0|600m", "show_altitude=0|1500m"},
			{"size=24", "to=16in|22in", "show_temp=45C"},
			{"size=11", "to=10in", "became=10.3|26.1 cm", "growth="},
			{"size=11", "to=10in", "growth=0.5|2"},
		},
		"lift": {
			{"size=11|16", "to=10in|11in", "gel=1|5|20", "purity=80%|92%|100%", "humidity=0|50%|100%", "temp=5C|30C"},
			{"size=36", "to=30in|36in", "purity=90%", "extra_g=10"},
			{"size=11", "to=11in", "latex_g=2.5|3.4", "floated=|20|30 h"},
		},
		"dip": {append(tube, "play=0.5", "left=|0.3m", "right=|0.5m"), append(tube, "play=0", "visible=150", "useless=60"),
			{"span=2m", "loads=sign 1kg @ -0.2m, cloth 2kg along|sign 4kg @ 2.3m", "test_weight=1.5kg", "test_dip=9mm",
				"left=0.3m", "right=0.4m"}},
		"tip": {
			{"width=1.2m", "height=2m", "weight=12kg|60kg", "base_depth=0.6m", "base_width=|0.5m", "push=60 N|200 N",
				"push_at=0.5m|1.4m", "ground=carpet|grass|polished floor|steel feet on smooth cast concrete", "factor=1.5|2"},
			{"width=1.2m", "height=2m", "weight=30kg", "base_depth=0.8m", "depth=0|0.5m", "forward=0|15cm|60cm",
				"wind=3 m/s|20 km/h|Bft 4|12 mph", "push=|80 N", "push_at=|1m",
				"ground=|wood feet on concrete|rubber feet on a dry floor|concrete weights on concrete|steel feet on concrete"},
		},
		"line": {{"weight=1kg|3kg", "angle=20", "strength=20 lb|9 kg", "knot=50%|80%", "factor=5|8"}},
		"car": {
			{"litres=300|1200|6000", "recipe=2x11@9.5|2x11@10 + 1x18@16", "clusters=1|40", "squeeze=0|10%|30%",
				"packing=40%|55%|64%"},
			{"cargo=180 x 110 x 85 cm", "litres=|900", "sections=1|2", "section_length=1m|2.5m", "section_thick=|40cm|90cm",
				"squeeze=0|20%", "packing=50%|60%"},
			{"cargo=140 x 100 x 80 cm|1200 l", "door=10 x 10 cm|90 x 90 cm", "recipe=2x5 + 2x11 + 1x24|2x11@9.5",
				"clusters=1|12", "balloons=300 x 5"},
		},
	}
}

// The same whole numbers, verdicts and figures to six digits come out natively
// and in wasm: both read the same file.
func TestGoldens(t *testing.T) {
	for _, c := range calc.All() {
		t.Run(c.Name, func(t *testing.T) {
			grid := grids()[c.Name]
			require.NotEmpty(t, grid)
			var b strings.Builder
			for _, grid := range append(moreGrids()[c.Name], grid) {
				for _, raw := range combinations(grid) {
					b.WriteString(goldenLine(c, raw))
				}
			}
			againstGolden(t, c.Name, b.String())
		})
	}
}

// Every input of every calculator is in a grid with at least one value of its own.
func TestGoldensLeaveNoInputOut(t *testing.T) {
	for _, c := range calc.All() {
		varied := map[string]bool{}
		for _, grid := range append(moreGrids()[c.Name], grids()[c.Name]) {
			for _, row := range grid {
				key, list, _ := strings.Cut(row, "=")
				varied[key] = varied[key] || strings.Trim(list, "|") != ""
			}
		}
		for _, in := range c.Inputs {
			assert.True(t, varied[in.Key], "%s %s", c.Name, in.Key)
		}
	}
}

func againstGolden(t *testing.T, name, text string) {
	t.Helper()
	file := filepath.Join("..", "testdata", "goldens", "calc", name+".txt")
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
	}
	kept, err := os.ReadFile(file)
	require.NoError(t, err, "run go test ./calc -run Goldens -update and read what changed")
	want, got := strings.Split(string(kept), "\n"), strings.Split(text, "\n")
	require.Equal(t, len(want), len(got), "cases")
	for i := range want {
		if want[i] != got[i] {
			assert.Equal(t, want[i], got[i], "case %d; run go test ./calc -run Goldens -update and read what changed", i+1)
			return
		}
	}
}

func combinations(grid []string) []map[string]string {
	all := []map[string]string{{}}
	for _, row := range grid {
		key, list, _ := strings.Cut(row, "=")
		var next []map[string]string
		for _, raw := range all {
			for _, text := range strings.Split(list, "|") {
				more := map[string]string{key: text}
				for k, v := range raw {
					more[k] = v
				}
				next = append(next, more)
			}
		}
		all = next
	}
	return all
}

// goldenLine is what was typed, then every output in the calculator's order, or
// which input was refused.
func goldenLine(c calc.Calculator, raw map[string]string) string {
	var typed []string
	for key, text := range raw {
		if text != "" {
			typed = append(typed, key+"="+text)
		}
	}
	sort.Strings(typed)
	line := strings.Join(typed, " ") + " ->"
	result, err := c.Compute(raw, measure.Metric)
	if err != nil {
		key, _, _ := strings.Cut(err.Error(), ":")
		return line + " refused: " + key + "\n"
	}
	return line + told(c, result) + "\n"
}

// told is every output in the calculator's order, measures to six digits.
func told(c calc.Calculator, result calc.Result) string {
	line := ""
	for _, out := range c.Outputs {
		value := result.Outputs[out.Key]
		if x, isFloat := value.(float64); isFloat {
			value = strconv.FormatFloat(x, 'g', 6, 64)
		}
		if list, isFloats := value.([]float64); isFloats {
			value = fmt.Sprintf("%.6g", list)
		}
		line += fmt.Sprintf(" %s=%v", out.Key, value)
	}
	return line
}
