package softsphere_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/softsphere"
)

func ExamplePushed() {
	quads, err := softsphere.Pushed([]float64{241.3, 241.3, 241.3, 241.3}, 10, 0.14, 1)
	fmt.Printf("%.0f mm apart, settled %v, %v\n", quads.PitchMM(), quads.Settled, err)
	// Output: 198 mm apart, settled true, <nil>
}

func TestPushedBalancesThePush(t *testing.T) {
	for _, diameters := range [][]float64{alike(2, 254), alike(4, 241.3), alike(6, 254), alike(8, 254),
		{254, 254, 254, 254, 406, 406}} {
		rest, err := softsphere.Pushed(diameters, 10, standardPush, 1)
		require.NoError(t, err)
		require.True(t, rest.Settled)
		mean := 0.0
		for _, d := range diameters {
			mean += d / float64(len(diameters))
		}
		assert.InDelta(t, standardPush*mean, rest.AxialForce, 0.005*mean, "%d balloons", len(diameters))
		assert.Len(t, rest.Balloons, 10*len(diameters))
	}
}

// TestLightlyPushedQuadsStandNearTouching checks that quads resist a push of 0.14 by their contacts: the rings touch at
// 0.8409 d and give way a little, so the pitch is just below it.
func TestLightlyPushedQuadsStandNearTouching(t *testing.T) {
	rest, err := softsphere.Pushed(alike(4, 1), 10, 0.1, 1)
	require.NoError(t, err)
	assert.InDelta(t, 0.8409, rest.PitchMM(), 0.025)
	assert.Less(t, rest.PitchMM(), 0.8409)
}

// TestWorkGrowsNoFasterThanNLogN checks the cost of long strings. What takes time is computing the force on a balloon,
// and the number of computations is the same on every machine. Per n log n it must not be larger for long strings than
// for the shorter ones they are made from. A long string must be as good as a short one: its forces balance, the push
// is met and its pitch is the same.
func TestWorkGrowsNoFasterThanNLogN(t *testing.T) {
	for _, balloons := range []int{4, 6, 10} {
		most, pitch := 0.0, 0.0
		for _, clusters := range growing {
			moves, apart := 0, 0.0
			const starts = 2
			for seed := range uint64(starts) {
				rest, err := softsphere.Pushed(alike(balloons, 254), clusters, standardPush, seed+1)
				require.NoError(t, err)
				require.True(t, rest.Settled)
				assert.Len(t, rest.Balloons, clusters*balloons)
				assert.InDelta(t, standardPush*254, rest.AxialForce, 0.005*254)
				moves += rest.Moves
				apart += rest.PitchMM() / starts
			}
			n := float64(clusters * balloons)
			now := float64(moves) / starts / (n * math.Log2(n))
			t.Logf("%4d clusters of %2d: %5.1f moves per n log2 n, %.1f mm apart", clusters, balloons, now, apart)
			if clusters <= 40 {
				most, pitch = max(most, now), apart
				continue
			}
			assert.LessOrEqual(t, now, most, "%d clusters of %d", clusters, balloons)
			assert.InEpsilon(t, pitch, apart, 0.01, "%d clusters of %d", clusters, balloons)
		}
	}
}

// TestLongStringsScaleToo checks that strings made from pieces double with their balloons, in every bit, and are
// reproducible.
func TestLongStringsScaleToo(t *testing.T) {
	one, err := softsphere.Pushed(alike(4, 241.3), 91, standardPush, 3)
	require.NoError(t, err)
	again, err := softsphere.Pushed(alike(4, 241.3), 91, standardPush, 3)
	require.NoError(t, err)
	assert.Equal(t, one, again)
	two, err := softsphere.Pushed(alike(4, 2*241.3), 91, standardPush, 3)
	require.NoError(t, err)
	assert.Equal(t, 2*one.LengthMM, two.LengthMM)
	assert.Equal(t, 2*one.Balloons[363].Z, two.Balloons[363].Z)
}

func TestFewerClustersAreTheStartOfTen(t *testing.T) {
	ten, err := softsphere.Pushed(alike(6, 254), 10, standardPush, 3)
	require.NoError(t, err)
	three, err := softsphere.Pushed(alike(6, 254), 3, standardPush, 3)
	require.NoError(t, err)
	assert.Equal(t, ten.Balloons[:18], three.Balloons)
	assert.InDelta(t, ten.PitchMM(), three.PitchMM(), 1e-9)
}

func TestHeldStandsWhereAsked(t *testing.T) {
	loose, err := softsphere.Held(alike(6, 254), 12, 254, 1)
	require.NoError(t, err)
	require.True(t, loose.Settled)
	tight, err := softsphere.Held(alike(6, 254), 12, 200, 1)
	require.NoError(t, err)
	assert.InDelta(t, 254, loose.PitchMM(), 1e-9)
	assert.InDelta(t, 200, tight.PitchMM(), 1e-9)
	assert.Greater(t, tight.AxialForce, loose.AxialForce, "closer clusters must push back harder")
	assert.Greater(t, tight.WidthMM(), loose.WidthMM(), "and be wider")
	assert.Greater(t, tight.WidestMM(), loose.WidestMM())
	for _, pitch := range []float64{0, -1, 1, 1e6, math.NaN()} {
		_, err := softsphere.Held(alike(6, 254), 12, pitch, 1)
		assert.ErrorIs(t, err, softsphere.ErrSpheres, "pitch %g", pitch)
	}
}

// TestHeldForceIsThePush checks that Held and Pushed agree: the force that holds a string at the pitch of a push is
// about that push.
func TestHeldForceIsThePush(t *testing.T) {
	typical, err := softsphere.Typical(alike(6, 254), standardPush)
	require.NoError(t, err)
	held, err := softsphere.Held(alike(6, 254), 20, typical.PitchMM, 1)
	require.NoError(t, err)
	assert.InEpsilon(t, standardPush*254, held.AxialForce, 0.15)
}

func TestPushedRefuses(t *testing.T) {
	for _, push := range []float64{0, -1, 2, math.NaN(), math.Inf(1)} {
		_, err := softsphere.Pushed(alike(4, 254), 10, push, 1)
		assert.ErrorIs(t, err, softsphere.ErrSpheres, "push %g", push)
	}
	for _, clusters := range []int{0, -5, math.MaxInt} {
		_, err := softsphere.Pushed(alike(4, 254), clusters, standardPush, 1)
		assert.ErrorIs(t, err, softsphere.ErrSpheres, "%d clusters", clusters)
	}
}

// FuzzScale checks that doubling or halving all sizes scales every length exactly, in every bit.
func FuzzScale(f *testing.F) {
	f.Add(uint64(1), byte(4), 241.3, 241.3, 0.2, false)
	f.Add(uint64(7), byte(6), 254.0, 406.4, 0.21, true)
	f.Add(uint64(9), byte(2), 101.6, 254.0, 0.5, false)
	f.Fuzz(func(t *testing.T, seed uint64, balloons byte, first, second, push float64, halve bool) {
		if !(first > 20 && first < 1000 && second > 20 && second < 1000 && push >= 0.05 && push <= 0.8) {
			return
		}
		diameters := alike(int(balloons%8)+1, first)
		diameters[len(diameters)-1] = second
		factor := 2.0
		if halve {
			factor = 0.5
		}
		scaled := make([]float64, len(diameters))
		for i, d := range diameters {
			scaled[i] = factor * d
		}
		one, err := softsphere.Pushed(diameters, 10, push, seed)
		if err != nil {
			return
		}
		other, err := softsphere.Pushed(scaled, 10, push, seed)
		require.NoError(t, err)
		assert.Equal(t, factor*one.PitchMM(), other.PitchMM(), "pitch")
		assert.Equal(t, factor*one.WidestMM(), other.WidestMM(), "largest width")
		assert.InEpsilon(t, factor*one.WidthMM(), other.WidthMM(), 1e-9, "width")
		assert.Equal(t, factor*one.AxialForce, other.AxialForce, "force")
		assert.InDelta(t, one.Coverage(), other.Coverage(), 1e-3, "coverage")
		assert.Equal(t, one.Steps, other.Steps)
	})
}

// TestSameBitsEverywhere compares the engine's bits with those of a native run, so that phone and server draw and count
// alike. The figures show that machines agree, not that the model is right.
func TestSameBitsEverywhere(t *testing.T) {
	six, err := softsphere.Pushed(alike(6, 254), 10, standardPush, 1)
	require.NoError(t, err)
	mixed, err := softsphere.Typical([]float64{254, 254, 254, 254, 406.4, 406.4}, standardPush)
	require.NoError(t, err)
	free, err := softsphere.Free(alike(10, 254))
	require.NoError(t, err)
	wrote := struct{ six, mixed, free string }{
		six:   "0x1.cf38bdcbaf2a2p+07",
		mixed: "0x1.f6047add9323dp+07 0x1.16c191db3e192p+10 0x1.d6c846245cf4ep-01",
		free:  "0x1.674fff3a2a304p+09",
	}
	assert.Equal(t, wrote.six, fmt.Sprintf("%x", six.PitchMM()))
	assert.Equal(t, wrote.mixed, fmt.Sprintf("%x %x %x", mixed.PitchMM, mixed.WidestMM, mixed.Coverage))
	assert.Equal(t, wrote.free, fmt.Sprintf("%x", free.BallMM()))
}
