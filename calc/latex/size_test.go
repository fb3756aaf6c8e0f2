package latex_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/latex"
)

// TestSizesAreInOrder checks that the table is in a sensible order. Its figures are common practice without a source.
func TestSizesAreInOrder(t *testing.T) {
	last := latex.Size{}
	for _, s := range latex.Sizes() {
		if s.Modelling() {
			assert.Positive(t, s.LatexG, s.NominalIn)
			continue
		}
		assert.Greater(t, s.NominalIn, last.NominalIn)
		assert.GreaterOrEqual(t, s.LatexG, last.LatexG, s.NominalIn)
		assert.LessOrEqual(t, s.DecorMinIn, s.DecorToIn, s.NominalIn)
		assert.LessOrEqual(t, s.DecorToIn, s.DecorMaxIn, s.NominalIn)
		assert.Less(t, s.DecorMaxIn, s.FullIn, s.NominalIn)
		assert.EqualValues(t, s.NominalIn, s.FullIn, "full is what the bag says")
		assert.NotEmpty(t, s.Mark)
		last = s
	}
}

func TestFind(t *testing.T) {
	for _, nominal := range []int{5, 9, 10, 11, 12, 16, 18, 24, 36, 160, 260, 350} {
		s, ok := latex.Find(nominal)
		require.True(t, ok, nominal)
		assert.Equal(t, nominal, s.NominalIn)
		if s.TwinIn > 0 {
			twin, ok := latex.Find(s.TwinIn)
			require.True(t, ok)
			assert.Equal(t, nominal, twin.TwinIn)
		}
	}
	_, ok := latex.Find(13)
	assert.False(t, ok)
}

// TestTheUsualSizeIsSoft checks over all sizes that the usual décor fill keeps what is said beside it: 80 to 92 % of
// full, and no note (common practice, no source).
func TestTheUsualSizeIsSoft(t *testing.T) {
	for _, s := range latex.Sizes() {
		if s.Modelling() {
			assert.EqualValues(t, s.NominalIn, latex.UsualIn(s.NominalIn))
			continue
		}
		b, err := latex.Describe(s, latex.UsualIn(s.NominalIn)*latex.MMPerInch)
		require.NoError(t, err)
		assert.InDelta(t, (latex.LeastSoftPct+latex.MostSoftPct)/2, b.FillPct, (latex.MostSoftPct-latex.LeastSoftPct)/2,
			"size %d", s.NominalIn)
		assert.Empty(t, b.Notes, s.NominalIn)
	}
	assert.EqualValues(t, 13, latex.UsualIn(13), "a size that is not in the table")
	assert.Zero(t, latex.UsualIn(-5))
}

// TestWarningsBeginAtOneShare checks that both notes about a nearly full balloon begin at the same share of full.
func TestWarningsBeginAtOneShare(t *testing.T) {
	for _, s := range latex.Sizes() {
		if s.Modelling() {
			continue
		}
		for _, row := range []struct {
			pct   float64
			notes int
		}{{latex.TooFullPct - 0.01, 0}, {latex.TooFullPct + 1e-9, 1}} {
			mm := row.pct / 100 * s.FullMM()
			b, err := latex.Describe(s, mm)
			require.NoError(t, err)
			assert.Len(t, b.Notes, row.notes, s.NominalIn)
			g, err := latex.Heat(s, mm, latex.Place{TempC: 20}, latex.Place{TempC: 20})
			require.NoError(t, err)
			assert.Len(t, g.Notes, row.notes, s.NominalIn)
		}
	}
}

// TestVolume checks a sphere of diameter 1: volume 0.523598776 (geometry, by hand).
func TestVolume(t *testing.T) {
	assert.InEpsilon(t, 523.598776, latex.VolumeL(1000), 1e-9)
	assert.Zero(t, latex.VolumeL(-3))
	assert.Zero(t, latex.VolumeL(math.NaN()))
	for _, d := range []float64{1, 127, 279.4, 900} {
		assert.InEpsilon(t, d, latex.DiameterMM(latex.VolumeL(d)), 1e-12)
	}
}

// TestGasOfAFullBalloon checks the gas in a full balloon against two sources outside the project. The helium chart of
// an event supplier, in cubic feet: 9-inch 0.25, 11-inch 0.5, 12-inch 0.55, 16-inch 1.5, 36-inch 15; its lifts are
// rounded averages, of balloon gas with some air, so they hold to a quarter. Common practice says 14 to 15 L for a full
// 11-inch.
func TestGasOfAFullBalloon(t *testing.T) {
	for _, row := range []struct {
		nominal      int
		cuFt, liftsG float64
	}{{9, 0.25, 6}, {11, 0.5, 10}, {12, 0.55, 11}, {16, 1.5, 34}, {36, 15, 339}} {
		s, _ := latex.Find(row.nominal)
		assert.InEpsilon(t, row.cuFt*28.316846592, s.VolumeL(s.FullMM()), 1e-9, row.nominal)
		assert.InEpsilon(t, row.liftsG, floating(t, row.nominal, nil).NetG, 0.25, row.nominal)
	}
	eleven, _ := latex.Find(11)
	assert.InDelta(t, 14.5, eleven.VolumeL(eleven.FullMM()), 0.5)
	assert.InEpsilon(t, latex.VolumeL(9*25.4), eleven.VolumeL(9*25.4), 1e-12, "round at 82 % of full")
	assert.InEpsilon(t, latex.VolumeL(10*25.4), eleven.VolumeL(10*25.4), 0.05, "nearly round at the usual size")
	own := eleven
	own.OwnGas = 1.1
	assert.InEpsilon(t, 1.1, own.VolumeL(200)/eleven.VolumeL(200), 1e-12)
}

func ExampleFind() {
	s, _ := latex.Find(11)
	fmt.Printf("%d in: sized to %g..%g in, %.1f L at %g in, %s\n",
		s.NominalIn, s.DecorMinIn, s.DecorMaxIn, s.VolumeL(s.DecorToMM()), s.DecorToIn, s.Mark)
	// Output: 11 in: sized to 9..10.5 in, 8.9 L at 10 in, common practice
}
