package calc_test

import (
	"errors"
	"maps"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc"
	"garlandry/calc/cluster"
	"garlandry/calc/measure"
)

// TestErrorsOfferOnlyWhatIsTaken collects refusals of every input: golden cases with nonsense and with values out of
// range, random cases, and inputs that do not go together. Each example of a refusal is typed into the same input. The
// input must take it, though another one may still be missing. A refusal has no other examples. It has none only if the
// input refuses its own, too.
func TestErrorsOfferOnlyWhatIsTaken(t *testing.T) {
	for _, c := range calc.All() {
		t.Run(c.Name, func(t *testing.T) {
			offered := map[string]int{}
			cases := walk(c, 300)
			for _, in := range c.Inputs {
				for _, text := range []string{"??", "-1", "0", "1e9", "0.3", "1e11 mm", "500000 g"} {
					cases = append(cases, with(cases[0], map[string]string{in.Key: text}),
						with(validFor(c, in.Key), map[string]string{in.Key: text}))
				}
				missing := maps.Clone(cases[0])
				delete(missing, in.Key)
				cases = append(cases, missing)
			}
			for _, row := range clashes {
				if row.calculator == c.Name {
					cases = append(cases, row.inputs)
				}
			}
			for _, typed := range cases {
				for _, system := range []measure.System{measure.Metric, measure.Imperial} {
					checkExample(t, c, typed, system, offered)
				}
			}
			for _, in := range c.Inputs {
				assert.Positive(t, offered[in.Key], "no refusal of %s had an example", in.Key)
			}
		})
	}
}

func checkExample(t *testing.T, c calc.Calculator, typed map[string]string, s measure.System, offered map[string]int) {
	t.Helper()
	_, err := c.Compute(nil, typed, s)
	var refused *calc.InputError
	if !errors.As(err, &refused) {
		return
	}
	in, known := c.Input(refused.Input)
	if !known {
		return
	}
	example := refused.Example
	if example == "" {
		example = in.Example
	} else {
		offered[in.Key]++
		require.True(t, strings.HasSuffix(err.Error(), "; for example "+in.Key+"="+shown(example)), err.Error())
		assert.Equal(t, 1, strings.Count(err.Error(), "example"), err.Error())
	}
	assert.NotContains(t, err.Error(), "such as", "%v", typed)
	assert.NotContains(t, err.Error(), "as in", "%v", typed)
	_, err = c.Compute(nil, with(typed, map[string]string{in.Key: example}), s)
	var second *calc.InputError
	again := errors.As(err, &second) && second.Input == in.Key
	assert.Equal(t, refused.Example == "", again, "%s %v: %s=%s, %v", c.Name, typed, in.Key, example, err)
}

// shown returns an example as an error writes it for a command line.
func shown(example string) string {
	switch {
	case !strings.ContainsAny(example, " '\"()*;<>|&$"):
		return example
	case strings.Contains(example, "\""):
		return "'" + example + "'"
	}
	return "\"" + example + "\""
}

// TestErrorsOfRecipesOfferRecipes feeds the examples in errors about recipes back to the parsers. A person reads them
// where a recipe is a field of a piece.
func TestErrorsOfRecipesOfferRecipes(t *testing.T) {
	for _, text := range []string{"", "x", "2x7", "99x11", "9x11@10", "2x11@", "2x11@99", "2x0@3", "11@@", "2xx11"} {
		_, err := cluster.ParseRecipe(text)
		require.Error(t, err, text)
		said, _, _ := strings.Cut(err.Error(), ": "+cluster.ErrRecipe.Error())
		for _, begins := range []string{"an example is ", "as in ", "such as "} {
			if _, examples, found := strings.Cut(said, begins); found {
				examples, _, _ = strings.Cut(examples, "; ")
				for _, example := range strings.Split(strings.ReplaceAll(examples, " or ", ", "), ", ") {
					_, err := cluster.ParseRecipe(example)
					assert.NoError(t, err, "%q of %q", example, said)
				}
			}
		}
	}
}
