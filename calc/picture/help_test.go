package picture_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/cluster"
	"garlandry/calc/outline"
	"garlandry/calc/picture"
)

func recipe(t testing.TB, text string) cluster.Recipe {
	t.Helper()
	r, err := cluster.ParseRecipe(text)
	require.NoError(t, err)
	return r
}

func line(lengthMM float64) outline.Shape {
	return outline.Shape{Kind: outline.Line, LengthMM: lengthMM}
}

func strung(t testing.TB, shape outline.Shape, c picture.Clusters) []picture.Balloon {
	t.Helper()
	balloons, _, err := picture.Strung(shape, c, cluster.StandardPush())
	require.NoError(t, err)
	return balloons
}

// assertHolds checks that the balloons are exactly those of the clusters, with every part and slot once.
func assertHolds(t testing.TB, c picture.Clusters, balloons []picture.Balloon) {
	t.Helper()
	type place struct{ cluster, part, slot int }
	wanted, got := map[place]float64{}, map[place]float64{}
	for i, k := range c.Order {
		for part, p := range c.Recipes[k].Normal() {
			for slot := range 2 * p.Duplets {
				wanted[place{i, part, slot}] = p.DiameterMM()
			}
		}
	}
	for _, b := range balloons {
		got[place{b.Cluster, b.Part, b.Slot}] = 2 * b.RadiusMM
	}
	require.Len(t, balloons, len(wanted))
	assert.Equal(t, wanted, got)
}

func assertFinite(t testing.TB, balloons []picture.Balloon) {
	t.Helper()
	for i, b := range balloons {
		for _, v := range []float64{b.XMM, b.YMM, b.DepthMM, b.RadiusMM} {
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0), "balloon %d: %+v", i, b)
		}
		require.Positive(t, b.RadiusMM)
	}
}

func apart(a, b picture.Balloon) float64 {
	return math.Hypot(math.Hypot(a.XMM-b.XMM, a.YMM-b.YMM), a.DepthMM-b.DepthMM)
}

// deepest returns the largest overlap of two spheres, as a share of the smaller radius.
func deepest(balloons []picture.Balloon) float64 {
	most := 0.0
	for i, a := range balloons {
		for _, b := range balloons[:i] {
			most = max(most, (a.RadiusMM+b.RadiusMM-apart(a, b))/min(a.RadiusMM, b.RadiusMM))
		}
	}
	return most
}
