package calc_test

import (
	"maps"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc"
	"garlandry/calc/measure"
)

// call is a computed case: a calculator, what was typed, and the result.
type call struct {
	name   string
	typed  map[string]string
	result calc.Result
}

// has reports whether one of the inputs was typed.
func (c call) has(keys ...string) bool {
	return slices.ContainsFunc(keys, func(key string) bool { return strings.TrimSpace(c.typed[key]) != "" })
}

func (c call) is(names ...string) bool { return slices.Contains(names, c.name) }

// bare reports whether the recipe of an input leaves out what a size is inflated to.
func (c call) bare(key string) bool {
	for _, part := range regexp.MustCompile(`[+;]|, `).Split(c.typed[key], -1) {
		if part != "" && !strings.Contains(part, "@") {
			return true
		}
	}
	return false
}

// TestMarksAreThoseOfTheBranchTaken walks all calculators over their golden cases, every choice and random values. The
// named sources are exactly those that the inputs call for by expectedSources, each with the mark that it has there.
func TestMarksAreThoseOfTheBranchTaken(t *testing.T) {
	used := map[string]int{}
	for _, c := range calc.All() {
		t.Run(c.Name, func(t *testing.T) {
			for _, typed := range walk(c, 400) {
				result, err := c.Compute(nil, typed, measure.Metric)
				if err != nil {
					continue
				}
				checkSources(t, call{c.Name, typed, result}, used)
			}
		})
	}
	for _, want := range expectedSources {
		assert.Positive(t, used[want.begins], "%q was never used: no case takes its branch", want.begins)
	}
}

func checkSources(t *testing.T, made call, used map[string]int) {
	t.Helper()
	table := calc.Sources(measure.Metric)
	named := made.result.Sources
	for _, source := range named {
		require.Contains(t, table, source, "%s %v", made.name, made.typed)
	}
	expected := 0
	for _, want := range expectedSources {
		at := slices.IndexFunc(named, func(s calc.Source) bool { return strings.HasPrefix(s.Text, want.begins) })
		require.Equal(t, want.when(made), at >= 0, "%s %v names %q", made.name, made.typed, want.begins)
		if at >= 0 {
			require.Equal(t, want.mark, named[at].Mark, want.begins)
			used[want.begins]++
			expected++
		}
	}
	require.Len(t, named, expected, "%s %v", made.name, made.typed)
	for _, line := range made.result.Working {
		for _, found := range markInWorking.FindAllStringSubmatch(line.Formula+" "+line.Value, -1) {
			marked := func(s calc.Source) bool { return s.Mark == found[1] }
			require.True(t, slices.ContainsFunc(named, marked), "%s: %q has no such source", made.name, line)
		}
	}
}

var markInWorking = regexp.MustCompile(
	`\((published|common practice|common practice scaled|from memory|measured by you)\)`)

// namesAWork finds what somebody can look up: a year, a standard, a named guide, or the name of a formula or method.
var namesAWork = regexp.MustCompile(`(18|19|20)\d\d|(EN|ISO|ASCE|AISC) |[Tt]extbook|statics|chapter \d|` +
	`Concrete 36|Catmull-Rom|Charles's law|negative binomial|Hamilton's|dynamic programming|` +
	`event guide of a public park`)

// TestTheTableOfSourcesIsWhole checks that each row has a text and a known mark, that what is published has a name, and
// that expectedSources knows it.
func TestTheTableOfSourcesIsWhole(t *testing.T) {
	marks := []string{calc.MarkPublished, calc.MarkCommonPractice, calc.MarkFromMemory, calc.MarkScaled,
		calc.MarkMeasured}
	table := calc.Sources(measure.Metric)
	assert.Len(t, table, len(expectedSources))
	for _, source := range table {
		assert.Contains(t, marks, source.Mark, source.Text)
		assert.NotContains(t, source.Text, "{", "an unfilled gap")
		if source.Mark == calc.MarkPublished {
			assert.Regexp(t, namesAWork, source.Text)
		}
		known := 0
		for _, want := range expectedSources {
			if strings.HasPrefix(source.Text, want.begins) {
				known++
			}
		}
		assert.Equal(t, 1, known, source.Text)
	}
}

// walk returns the golden cases of a calculator, each choice of every choice beside them, and random changes of them.
func walk(c calc.Calculator, random int) []map[string]string {
	var cases []map[string]string
	for _, f := range goldenCases[c.Name] {
		base := combinations(strings.Split(f.base, " / "))[0]
		cases = append(cases, base)
		for _, change := range f.changes {
			for _, changed := range combinations(strings.Split(change, " / ")) {
				cases = append(cases, with(base, changed))
			}
		}
	}
	for _, typed := range cases[:len(cases):len(cases)] {
		for _, in := range c.Inputs {
			for _, choice := range choicesOf(in) {
				cases = append(cases, with(typed, map[string]string{in.Key: choice}))
			}
		}
	}
	chance := rand.New(rand.NewPCG(11, 6))
	seen := cases[:len(cases):len(cases)]
	for range random {
		typed := maps.Clone(seen[chance.IntN(len(seen))])
		for range 1 + chance.IntN(4) {
			in := c.Inputs[chance.IntN(len(c.Inputs))]
			delete(typed, in.Key)
			if chance.IntN(3) > 0 {
				typed[in.Key] = somethingFor(in, seen, chance)
			}
		}
		cases = append(cases, typed)
	}
	return cases
}

func with(typed, changed map[string]string) map[string]string {
	all := maps.Clone(typed)
	maps.Copy(all, changed)
	return all
}

func choicesOf(in calc.Input) []string {
	if in.Kind == calc.KindFlag {
		return []string{"yes", "no"}
	}
	return in.Choices
}

// somethingFor returns a random text for an input: a number in its range, a choice, or what another case has there.
func somethingFor(in calc.Input, seen []map[string]string, chance *rand.Rand) string {
	if choices := choicesOf(in); len(choices) > 0 {
		return choices[chance.IntN(len(choices))]
	}
	if unit, single := siUnits[in.Kind]; single && chance.IntN(2) == 0 {
		share := chance.Float64() * chance.Float64()
		places := 4
		if in.Kind == calc.KindCount {
			places = 0
		}
		return measure.FormatNumber(in.Min+share*share*(in.Max-in.Min), places) + " " + unit
	}
	if other := seen[chance.IntN(len(seen))][in.Key]; other != "" {
		return other
	}
	return in.Example
}
