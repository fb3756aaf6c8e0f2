package cluster_test

import (
	"encoding/json"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"garlandry/calc/cluster"
	"garlandry/calc/latex"
)

func recipe(t testing.TB, text string) cluster.Recipe {
	t.Helper()
	r, err := cluster.ParseRecipe(text)
	require.NoError(t, err)
	return r
}

func ExampleParseRecipe() {
	r, err := cluster.ParseRecipe("1x18@16 + 1x11@10 + 11@10")
	fmt.Println(r, err)
	fmt.Println(r.Balloons(), "balloons")
	// Output:
	// 2x11@10 + 1x18@16 <nil>
	// 6 balloons
}

func TestParseRecipe(t *testing.T) {
	cases := []struct{ name, text, want string }{
		{"one size", "2x11@9.5", "2x11@9.5"},
		{"no spaces", "2x11@10+1x18@16", "2x11@10 + 1x18@16"},
		{"sorted by size", "1x18@16 + 2x11@10", "2x11@10 + 1x18@16"},
		{"merged", "1x11@10 + 2x11@10", "3x11@10"},
		{"one size sized two ways stays two parts", "1x11@10 + 1x11@9", "1x11@9 + 1x11@10"},
		{"a part without a count is one duplet", "11@10", "1x11@10"},
		{"usual fill of the size", "3x11", "3x11@10"},
		{"bare size", "5", "1x5@4.5"},
		{"times sign, marks, comma", " 2 × 11\" @ 9,5 in ", "2x11@9.5"},
		{"capital X", "2X11@10", "2x11@10"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, recipe(t, c.text).String())
		})
	}
}

func TestParseRecipeRefuses(t *testing.T) {
	cases := []struct{ name, text, says string }{
		{"empty", "  ", "as in"},
		{"no part after plus", "2x11@10 +", "an example"},
		{"no such size", "2x13@10", "sizes are 5, 9, 10"},
		{"modelling balloons make no clusters", "2x260@2", "sizes are"},
		{"too full", "2x11@12", "between 4.4 and 11"},
		{"too slack", "2x11@4", "between 4.4 and 11"},
		{"none", "0x11@10", "from 1"},
		{"half a duplet", "1.5x11@10", "whole number"},
		{"too many", "9x11@10", "1 to 8"},
		{"not a number", "2x11@NaN", "sized to"},
		{"endless", "2x11@Inf", "sized to"},
		{"words", "two pairs", "an example"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := cluster.ParseRecipe(c.text)
			require.ErrorIs(t, err, cluster.ErrRecipe)
			assert.Contains(t, err.Error(), c.says)
		})
	}
}

func TestRecipeInJSONIsText(t *testing.T) {
	held := struct{ Recipe cluster.Recipe }{recipe(t, "1x18@16 + 2x11@10")}
	text, err := json.Marshal(held)
	require.NoError(t, err)
	assert.JSONEq(t, `{"Recipe":"2x11@10 + 1x18@16"}`, string(text))
	var back struct{ Recipe cluster.Recipe }
	require.NoError(t, json.Unmarshal(text, &back))
	assert.Equal(t, held.Recipe, back.Recipe)
	require.NoError(t, json.Unmarshal([]byte(`{"Recipe":""}`), &back))
	assert.Nil(t, back.Recipe, "empty text must give no recipe")
	assert.Error(t, json.Unmarshal([]byte(`{"Recipe":"2x13"}`), &back))
}

func TestRecipeCounts(t *testing.T) {
	r := recipe(t, "2x11@10 + 1x18@16")
	assert.Equal(t, []int{3, 6, 1}, []int{r.Duplets(), r.Balloons(), r.Ties()})
	assert.Equal(t, []float64{254, 254, 254, 254, 406.4, 406.4}, r.DiametersMM())
	assert.Zero(t, cluster.Recipe{}.Ties())
	assert.Nil(t, cluster.Recipe{}.DiametersMM())
	assert.Error(t, cluster.Recipe{{Duplets: -1, SizeIn: 11, ToIn: 10}, {Duplets: 2, SizeIn: 11, ToIn: 10}}.Check())
}

// anyRecipe generates a recipe that can be built.
func anyRecipe(t *rapid.T) cluster.Recipe {
	var r cluster.Recipe
	for left := cluster.MaxDuplets; left > 0 && (len(r) == 0 || rapid.Bool().Draw(t, "more")); {
		part := anyPart(t, left)
		r = append(r, part)
		left -= part.Duplets
	}
	return r.Normal()
}

// anyPart draws up to so many duplets of one size.
func anyPart(t *rapid.T, most int) cluster.Part {
	size := latex.Sizes()[rapid.IntRange(0, 8).Draw(t, "size")]
	to := float64(rapid.IntRange(int(size.FullIn*4.1), int(size.FullIn*10)).Draw(t, "tenths")) / 10
	return cluster.Part{Duplets: rapid.IntRange(1, most).Draw(t, "duplets"), SizeIn: size.NominalIn, ToIn: to}
}

func TestFormattedRecipesParseToTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRecipe(t)
		back, err := cluster.ParseRecipe(r.String())
		require.NoError(t, err)
		assert.Equal(t, r, back)
	})
}

func FuzzParseRecipe(f *testing.F) {
	for _, seed := range []string{"2x11@10 + 1x18@16", "11", "x@+", "1e9x11@10", "2x11@9,5", "8x36@33"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		r, err := cluster.ParseRecipe(text)
		if err != nil {
			require.ErrorIs(t, err, cluster.ErrRecipe)
			return
		}
		require.NoError(t, r.Check())
		again, err := cluster.ParseRecipe(r.String())
		require.NoError(t, err)
		assert.Equal(t, r, again)
		assert.Positive(t, cluster.PitchMM(r, cluster.StandardPush()))
	})
}
