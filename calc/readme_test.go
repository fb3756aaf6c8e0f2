package calc_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"garlandry/calc"

	"github.com/stretchr/testify/require"
)

// TestREADMEListsTheCalculators checks README's table of calculators against the list; -update writes it.
func TestREADMEListsTheCalculators(t *testing.T) {
	const begin, end = "-update -->\n", "<!-- end of calculators -->"
	file := filepath.Join("..", "README.md")
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	before, rest, found := strings.Cut(string(text), begin)
	require.True(t, found, "README.md has lost the mark before its table of calculators")
	_, after, found := strings.Cut(rest, end)
	require.True(t, found, "README.md has lost the mark after its table of calculators")
	want := before + begin + readmeTable() + end + after
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(want), 0o644))
		return
	}
	require.Equal(t, want, string(text), "run go test ./calc -run README -update")
}

func readmeTable() string {
	var b strings.Builder
	b.WriteString("| name | tells | needs | may also take |\n|---|---|---|---|\n")
	for _, c := range calc.All() {
		var needs, takes []string
		for _, in := range c.Inputs {
			if in.Required {
				needs = append(needs, "`"+in.Key+"`")
			} else {
				takes = append(takes, "`"+in.Key+"`")
			}
		}
		b.WriteString(
			"| `" + c.Name + "` | " + c.Purpose + " | " + strings.Join(needs, " ") + " | " + strings.Join(takes, " ") + " |\n",
		)
	}
	return b.String()
}
