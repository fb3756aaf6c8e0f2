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
	recipes := "recipe=2x11@9.5|1x11@10|3x11@10|4x5@4.5|1x36@33|2x11@10 + 1x18@16|2x5@4 + 2x11@10 + 1x18@16|8x11@11|4x11@10 + 2x24@20"
	few := "recipe=2x11@9.5|2x11@10 + 1x18@16|8x11@11"
	push := "push=|0.5|2.5"
	return map[string][]string{
		"clusters": {"length=5cm|1m|10ft|7.31m|31m|300m", recipes, push},
		"accents":  {"length=1m|31m", few, push, "accent=2x5@4.5|1x11@10", "coverage=80%|95%|99.5%"},
		"match":    {recipes, "with=11@10|5@4.5|18@16|36@33", "max_duplets=1|4|8"},
		"outline": {"shape=line|arc|arch|hoop|ellipse|catenary|parabola|curve", "width=11ft", "height=0.7m|3m", "span=2.4m", "rise=0.4m", "sag=0.1m|0.9m", "diameter=1.9m", "part=75%|100%",
			"points=0,0; 1.2,0.8; 2.4,0", "section_max=|1.8m"},
		"column": {"height=20cm|6ft|2.31m|5m", recipes, push},
		"wall":   {"width=8ft|2.4m|5m", "height=20cm|2.31m", few, push, "columns_apart=|45cm"},
		"size":   {"size=5|9|10|11|12|16|18|24|36", "to="},
		"heat":   {"size=5|11|36", "to=", "fill_temp=5C|20C|35C", "show_temp=0C|22C|45C", "show_altitude=0|1500m"},
		"lift":   {"size=5|11|18|36", "to=", "temp=0C|21C|38C", "altitude=0|2000m", "extra_g=0|5", "cylinder_l=10|50", "cylinder_bar=150|200"},
		"spares": {"need=0|1|7|96|200|2400|100000", "fail=0|2.5|5|12.5|40", "sure=50|90|99|99.9"},
		"split":  {"total=0|1|7|96|219|100000", "weights=3,2,1|1,1,1|coral 53000, sand 24000, blush 23000|0.1,0.1,0.8|5,0,5|1,1,1,1,1,1,1"},
		"bags":   {"need=0|1|99|219|1001|25000", "have=0|40", "bags=100:9.90, 50:5.60, 25:3.20|72:7.10, 15:1.99|1:0.35|100:0"},
		"dip":    {"span=1.8m|2.4m|3.6m", "loads=sign 2kg @ 1.2m, cloth 1.8kg along|3kg|1kg @ 0.3m, 2kg from 0.5m to 1.5m", "test_span=2.4m", "test_weight=1.55kg", "test_dip=12mm|18mm", "test_stays=0|6mm"},
		"tip":    {"width=1m|2.4m", "height=2m|2.5m", "bottom=0|0.25m", "weight=8kg|40kg", "base_depth=0.6m|1m", "solidity=40%|100%", "wind=Bft 3|8 m/s|12 m/s"},
		"line":   {"weight=0.4kg|2kg|15kg", "points=1|2|4", "angle=0|45|60", "strength=90 N|400 N", "over_people=no|yes"},
		"car": {"cargo=180 x 110 x 85 cm|3 x 1.7 x 1.8 m", "door=|100 x 75 cm", few, "clusters=0|20|200", "balloons=|120 x 11@10, 40 x 5",
			"sections=0|3", "section_length=2.4m|6m"},
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
			for _, raw := range combinations(grid) {
				b.WriteString(goldenLine(c, raw))
			}
			file := filepath.Join("..", "testdata", "goldens", "calc", c.Name+".txt")
			if *update {
				require.NoError(t, os.WriteFile(file, []byte(b.String()), 0o644))
			}
			kept, err := os.ReadFile(file)
			require.NoError(t, err, "run go test ./calc -run Goldens -update and read what changed")
			want, got := strings.Split(string(kept), "\n"), strings.Split(b.String(), "\n")
			require.Equal(t, len(want), len(got), "cases")
			for i := range want {
				if want[i] != got[i] {
					assert.Equal(t, want[i], got[i], "case %d; run go test ./calc -run Goldens -update and read what changed", i+1)
					return
				}
			}
		})
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
	return line + "\n"
}
