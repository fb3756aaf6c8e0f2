package calc_test

import (
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"garlandry/calc"
	"garlandry/calc/measure"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the goldens anew")

// TestGoldens checks whole numbers, verdicts and figures to six digits. Native and wasm tests read the same file.
func TestGoldens(t *testing.T) {
	for _, c := range calc.All() {
		t.Run(c.Name, func(t *testing.T) {
			families := goldenCases[c.Name]
			require.NotEmpty(t, families)
			var b strings.Builder
			for _, f := range families {
				base := combinations(strings.Split(f.base, " / "))[0]
				fmt.Fprintf(&b, "# %s: %s\n%s", f.name, typed(base), goldenLine(c, "as it is", base))
				for _, change := range f.changes {
					for _, changed := range combinations(strings.Split(change, " / ")) {
						raw := maps.Clone(base)
						maps.Copy(raw, changed)
						b.WriteString(goldenLine(c, typed(changed), raw))
					}
				}
			}
			againstGolden(t, c.Name, b.String())
		})
	}
}

// TestGoldensLeaveNoInputOut checks that every input of every calculator has its own value in at least one case.
func TestGoldensLeaveNoInputOut(t *testing.T) {
	for _, c := range calc.All() {
		used := map[string]bool{}
		for _, f := range goldenCases[c.Name] {
			for _, rows := range append(f.changes, f.base) {
				for _, row := range strings.Split(rows, " / ") {
					key, values, _ := strings.Cut(row, "=")
					used[key] = used[key] || strings.Trim(values, "|") != ""
				}
			}
		}
		for _, in := range c.Inputs {
			assert.True(t, used[in.Key], "%s %s", c.Name, in.Key)
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
				more := maps.Clone(raw)
				more[key] = text
				next = append(next, more)
			}
		}
		all = next
	}
	return all
}

// typed lists the inputs as a person would, sorted by key.
func typed(raw map[string]string) string {
	var list []string
	for _, key := range slices.Sorted(maps.Keys(raw)) {
		list = append(list, key+"="+raw[key])
	}
	return strings.Join(list, " / ")
}

// goldenLine returns the case's name and every output in the calculator's order, or the refused input.
func goldenLine(c calc.Calculator, name string, raw map[string]string) string {
	result, err := c.Compute(nil, raw, measure.Metric)
	if err != nil {
		key, _, _ := strings.Cut(err.Error(), ":")
		return name + " -> refused: " + key + "\n"
	}
	return name + " ->" + outputs(c, result) + "\n"
}

// outputs returns the outputs in the calculator's order, with measures to six digits.
func outputs(c calc.Calculator, result calc.Result) string {
	line := ""
	for _, out := range c.Outputs {
		value, there := result.Outputs[out.Key]
		if !there {
			continue
		}
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
