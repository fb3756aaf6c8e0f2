package cluster_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/cluster"
)

// TestQuadsStandTwoToTheFoot is the calibration: classic garlands have about two quads a foot with 11-inch balloons
// filled to 9 or 9.5 in, eight balloons a foot. Common practice, no source.
func TestQuadsStandTwoToTheFoot(t *testing.T) {
	quads := recipe(t, "2x11@9.5")
	assert.InDelta(t, 152.4, cluster.PitchMM(quads, cluster.StandardPush()), 1e-6)
	assert.Equal(t, 20, cluster.ClustersAlong(10*304.8, quads, cluster.StandardPush()))
	// The touching pitch, 2^(-1/4) d (square antiprism, MathWorld), is compressed to about three quarters.
	pushed := cluster.PitchMM(quads, cluster.StandardPush()) / touchingPitchMM(4, 9.5*25.4)
	assert.InDelta(t, 0.75, pushed, 0.01)
}

// TestThreeDupletBase is not used in calibration. A base of three duplets is full but still bends: 7 to 10 balloons a
// foot (common practice, no source).
func TestThreeDupletBase(t *testing.T) {
	r := recipe(t, "3x11@10")
	perFoot := float64(r.Balloons()) * 304.8 / cluster.PitchMM(r, cluster.StandardPush())
	assert.True(t, perFoot >= 7 && perFoot <= 10, "%.2f balloons a foot", perFoot)
	assert.Less(t, oneMore(t, r), 2.0)
}

// TestOnlySlenderBasesBend checks which bases bend: those where a person, with twice the usual push, can push one more
// cluster into 10 ft. Eight duplets are stiff (common practice, no source), so they must not bend by this measure.
func TestOnlySlenderBasesBend(t *testing.T) {
	for _, text := range []string{"2x11@9.5", "3x11@10", "4x11@10"} {
		assert.Less(t, oneMore(t, recipe(t, text)), 2.0, text)
	}
	assert.Greater(t, oneMore(t, recipe(t, "8x11@10")), 2.0)
}

// oneMore returns the push, in usual ones, that squeezes one more cluster into 10 ft.
func oneMore(t *testing.T, r cluster.Recipe) float64 {
	n := cluster.ClustersAlong(3048, r, cluster.StandardPush())
	harder, err := (*cluster.Model)(nil).MeasuredPush(r, 3048, n+1)
	require.NoError(t, err)
	return harder.Relative
}

// TestMixedBase is not used in calibration. Two 11-inch duplets and one 18-inch duplet are a usual base (common
// practice, no source): its pitch is a little larger than that of the three-duplet base, and it is wider.
func TestMixedBase(t *testing.T) {
	mixed, plain := recipe(t, "2x11@10 + 1x18@16"), recipe(t, "3x11@10")
	push := cluster.StandardPush()
	ratio := cluster.PitchMM(mixed, push) / cluster.PitchMM(plain, push)
	assert.True(t, ratio > 1 && ratio < 1.3, "%.3f", ratio)
	assert.Greater(t, cluster.WidthMM(mixed, push), 1.1*cluster.WidthMM(plain, push))
	// The design's prototype: about 10 in apart.
	assert.InEpsilon(t, 10*25.4, cluster.PitchMM(mixed, push), 0.05)
}

// TestFourElevenInchDupletsStandIn is not used in calibration. If a colour comes only in 11 inch, four 11-inch duplets
// replace the mixed cluster (common practice, no source) and close 40 to 70 % of the difference.
func TestFourElevenInchDupletsStandIn(t *testing.T) {
	match, err := cluster.MatchSize(recipe(t, "2x11@10 + 1x18@16"), cluster.Part{SizeIn: 11, ToIn: 10}, 4)
	require.NoError(t, err)
	assert.Equal(t, 4, match.Duplets)
	assert.True(t, match.ClosesPct >= 40 && match.ClosesPct <= 70, "%.1f %%", match.ClosesPct)
}

// TestAccentsOfTwoFiveInchDuplets is not used in calibration. Accents are 5-inch clusters of two duplets (common
// practice, no source): a tetrahedron of balls, (1 + 1/sin(109.47/2)) d across by the Tammes angle (MathWorld,
// Spherical Code), about as big as one 11-inch balloon.
func TestAccentsOfTwoFiveInchDuplets(t *testing.T) {
	accent := recipe(t, "2x5@4.5")
	tetrahedron := 4.5 * 25.4 * (1 + 1/math.Sin(109.4712/2*math.Pi/180))
	assert.InEpsilon(t, tetrahedron, cluster.BallMM(accent), 0.01)
	assert.InEpsilon(t, 10*25.4, cluster.BallMM(accent), 0.1)
}

// TestPrototypeFigures checks the design's prototype: 6 x 10 in about 9 in apart, 8 x 10 about 11 in; free balls 24 and
// 26.5 in.
func TestPrototypeFigures(t *testing.T) {
	push := cluster.StandardPush()
	for _, c := range []struct {
		recipe      string
		pitch, ball float64
	}{{"3x11@10", 9, 24}, {"4x11@10", 11, 26.5}} {
		r := recipe(t, c.recipe)
		assert.InEpsilon(t, c.pitch*25.4, cluster.PitchMM(r, push), 0.05, c.recipe)
		assert.InEpsilon(t, c.ball*25.4, cluster.BallMM(r), 0.02, c.recipe)
	}
}

// TestTouchingRings uses trigonometry; n = 4 is the square antiprism's height 2^(-1/4), MathWorld "Square Antiprism".
func TestTouchingRings(t *testing.T) {
	for n, want := range map[int]float64{2: 0.707107, 3: 0.816497, 4: 0.840896, 5: 0.850651, 6: 0.855600, 8: 0.860296} {
		assert.InDelta(t, want, touchingPitchMM(n, 1), 1e-6, "%d balloons", n)
	}
	// The limit of many balloons in a ring is hexagonal packing on a cylinder, sqrt 3 / 2.
	assert.InDelta(t, math.Sqrt(3)/2, touchingPitchMM(100_000, 1), 1e-6)
	assert.Zero(t, touchingPitchMM(1, 1))
	assert.Zero(t, touchingPitchMM(4, math.NaN()))
}

// touchingPitchMM returns the distance of flat rings of n equal balloons if each is turned against the next by half a
// step and they just touch: sqrt(1 - (2 R sin(pi/2n))^2) d, with R = 1/(2 sin(pi/n)). For n = 4 that is 2^(-1/4) =
// 0.8409 d (height of the square antiprism, MathWorld). It is 0 for fewer than two balloons.
func touchingPitchMM(balloons int, diameterMM float64) float64 {
	if balloons < 2 || !(diameterMM > 0) {
		return 0
	}
	n := float64(balloons)
	chord := math.Sin(math.Pi/(2*n)) / math.Sin(math.Pi/n)
	return diameterMM * math.Sqrt(1-float64(chord*chord))
}
