package softsphere_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/softsphere"
)

func ExampleFree() {
	six, err := softsphere.Free([]float64{254, 254, 254, 254, 254, 254})
	fmt.Println(math.Round(six.BallMM()), "mm", err)
	// Output: 613 mm <nil>
}

// TestFreeBallsAreTammes checks free clusters of equal balloons against the published widest angles between n
// directions: the centre distance is d / (2 sin(theta/2)). Within 1 %.
func TestFreeBallsAreTammes(t *testing.T) {
	cases := []struct {
		balloons int
		degrees  float64
		source   string
	}{
		{4, 109.4712, "MathWorld, Spherical Code"},
		{5, 90, "MathWorld, Spherical Code"},
		{6, 90, "MathWorld, Spherical Code"},
		{7, 77.8695422, "H. Cohn, table of spherical codes, cohn.mit.edu"},
		{8, 74.8584922, "H. Cohn, table of spherical codes"},
		{9, 70.5287794, "H. Cohn, table of spherical codes: acos(1/3)"},
		{10, 66.1468220, "H. Cohn; OEIS A340918"},
		{11, 63.4349488, "from memory: Danzer 1963, the same angle as 12"},
		{12, 63.4349488, "MathWorld, icosahedron: acos(1/sqrt 5)"},
		{13, 57.1367031, "from memory: Musin and Tarasov 2012"},
		{14, 55.6705700, "OEIS A383859, Musin and Tarasov 2015"},
	}
	for _, c := range cases {
		t.Run(fmt.Sprintf("%d balloons", c.balloons), func(t *testing.T) {
			free, err := softsphere.Free(alike(c.balloons, 1))
			require.NoError(t, err)
			require.True(t, free.Settled)
			want := 1 + 1/math.Sin(c.degrees*math.Pi/360)
			assert.InEpsilon(t, want, free.BallMM(), 0.01, c.source)
		})
	}
}

func TestFreeDupletIsTwoDiameters(t *testing.T) {
	free, err := softsphere.Free(alike(2, 254))
	require.NoError(t, err)
	assert.InEpsilon(t, 2*254, free.BallMM(), 0.005)
	assert.Zero(t, free.PitchMM(), "a free cluster has no pitch")
	assert.Zero(t, free.Coverage())
}

// TestFreeMixedNecksAreAlike checks that necks twisted together are equally long, whatever the sizes of their balloons.
func TestFreeMixedNecksAreAlike(t *testing.T) {
	free, err := softsphere.Free([]float64{254, 254, 254, 254, 406, 406})
	require.NoError(t, err)
	least, most := math.Inf(1), 0.0
	for _, b := range free.Balloons {
		neck := math.Sqrt(b.X*b.X+b.Y*b.Y+b.Z*b.Z) - b.Radius
		least, most = min(least, neck), max(most, neck)
	}
	assert.Greater(t, least, 0.0)
	assert.InDelta(t, least, most, 3, "millimetres")
}

func TestFreeRefuses(t *testing.T) {
	cases := []struct {
		name      string
		diameters []float64
	}{
		{"nothing", nil},
		{"too many", alike(softsphere.MaxPerCluster+1, 100)},
		{"no size", []float64{0, 100}},
		{"not a number", []float64{math.NaN()}},
		{"endless", []float64{math.Inf(1)}},
		{"too unlike", []float64{1, 100}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := softsphere.Free(c.diameters)
			assert.ErrorIs(t, err, softsphere.ErrSpheres)
			_, err = softsphere.Pushed(c.diameters, 10, standardPush, 1)
			assert.ErrorIs(t, err, softsphere.ErrSpheres)
		})
	}
}
