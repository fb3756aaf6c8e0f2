package cargo_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"garlandry/calc/cargo"
)

// TestPackingFractionMatchesMeasuredVoids checks Benyahia & O'Neill, Particulate Science and Technology 23 (2005)
// 169-177: a tube of 50 ball diameters has a void fraction of 0.3906653157443224 (the worked value in the documentation
// of the Python package fluids).
func TestPackingFractionMatchesMeasuredVoids(t *testing.T) {
	// A cube of 7500 has the same ratio of wall to volume as a tube of 5000.
	fraction, err := cargo.PackingFraction(cargo.Space{LengthMM: 7500, WidthMM: 7500, HeightMM: 7500}, 100)
	require.NoError(t, err)
	assert.InDelta(t, 1-0.3906653157443224, fraction, 1e-12)
}

// TestPackingFractionIsThatOfRandomPackings checks that far from walls a random packing is between the loosest (0.555,
// Onoda & Liniger 1990, from memory) and the closest (0.64 ± 0.02, Berryman, Phys. Rev. A 27, 1053), and near walls
// below that.
func TestPackingFractionIsThatOfRandomPackings(t *testing.T) {
	far, err := cargo.PackingFraction(cargo.Space{LengthMM: 20_000, WidthMM: 20_000, HeightMM: 20_000}, 20)
	require.NoError(t, err)
	assert.Greater(t, far, 0.555)
	assert.Less(t, far, 0.64)
	// 10-inch balls in a van: 0.55 to 0.60 for a load is engineering judgement, no source.
	van, err := cargo.PackingFraction(cargo.Space{LengthMM: 3200, WidthMM: 1700, HeightMM: 1800}, 254)
	require.NoError(t, err)
	assert.Greater(t, van, 0.55)
	assert.Less(t, van, 0.60)
}

func TestPackingLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		space := drawSpace(t)
		space.Litres = 0
		diameter := rapid.Float64Range(20, 1000).Draw(t, "diameter")
		fraction, err := cargo.PackingFraction(space, diameter)
		require.NoError(t, err)
		smaller, err := cargo.PackingFraction(space, diameter*0.9)
		require.NoError(t, err)
		assert.Greater(t, smaller, fraction, "walls must affect smaller balls less")

		space.DoorWidthMM, space.DoorHeightMM = 0, 0
		answer, err := cargo.Pack(space, cargo.Load{Balls: []cargo.Balls{{"balls", diameter, 1, 0}}})
		require.NoError(t, err)
		if len(answer.Refused) > 0 {
			return
		}
		// No packing of equal balls is denser than pi/sqrt(18) (Kepler; Hales 2005).
		volume := math.Pi / 6 * diameter * diameter * diameter * float64(answer.Shares[0].PerTrip)
		assert.LessOrEqual(t, volume, math.Pi/math.Sqrt(18)*space.LengthMM*space.WidthMM*space.HeightMM)
	})
}
