package cluster_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/cluster"
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

func TestTouchingRings(t *testing.T) {
	// Trigonometry; n = 4 is the square antiprism's height 2^(-1/4), MathWorld
	// "Square Antiprism".
	for n, want := range map[int]float64{2: 0.707107, 3: 0.816497, 4: 0.840896, 5: 0.850651, 6: 0.855600, 8: 0.860296} {
		assert.InDelta(t, want, cluster.TouchingPitchMM(n, 1), 1e-6, "%d balloons", n)
	}
}

func TestQuadsStandTwoToTheFoot(t *testing.T) {
	// Common practice, no source: it is what the standard push is fixed by.
	assert.InDelta(t, 152.4, cluster.PitchMM(recipe(t, "2x11@9.5"), cluster.StandardPush()), 0.2)
}
