package cargo_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/cargo"
)

// quad has four balloons of 9.5 in: 4 x pi/6 x (241.3 mm)³ = 29.4 litres of air.
var quad = cargo.Filling{AirL: 29.43, BalloonMM: 241.3}

// TestSoftClustersPackAsTheirBalloonsDo checks that 24 quads, 706 litres of air, need between 1103 and 1273 litres, and
// at most a hundredth more because of the car's walls: random packings of balls fill 0.555 (loosest, Onoda & Liniger
// 1990, from memory) to 0.64 (closest, Berryman, Phys. Rev. A 27, 1053) of the space.
func TestSoftClustersPackAsTheirBalloonsDo(t *testing.T) {
	car := cargo.Space{LengthMM: 1900, WidthMM: 918, HeightMM: 918}
	a, err := cargo.Pack(car, cargo.Load{Clusters: []cargo.Clusters{{"quads", 576, 24, quad}}, SqueezePct: 10})
	require.NoError(t, err)
	air := 24 * quad.AirL
	assert.GreaterOrEqual(t, a.Litres, air/0.64)
	assert.LessOrEqual(t, a.Litres, 1.01*air/0.555)
	assert.True(t, a.Fits)
	assert.Equal(t, 1, a.Trips)
	assert.Equal(t, 29, a.Shares[0].PerTrip)
	measured, err := cargo.PackingFraction(car, quad.BalloonMM)
	require.NoError(t, err)
	assert.InDelta(t, measured, air/a.Litres, 0.05, "hard balls in a tube with as much wall, Benyahia & O'Neill 2005")
}

// TestTripsFollowTheBags checks a job whose pack list had 30 bags of 240 litres while its car needed 22 trips. 7200
// litres are four and a half times 1600.
func TestTripsFollowTheBags(t *testing.T) {
	bags := 30 * 240.0
	n := int(bags * cargo.CommonPacking / quad.AirL)
	a, err := cargo.Pack(cargo.Space{Litres: 1600},
		cargo.Load{Clusters: []cargo.Clusters{{"quads", 576, n, quad}}, SqueezePct: 10})
	require.NoError(t, err)
	assert.InDelta(t, bags, a.Litres, 60)
	assert.Equal(t, 5, a.Trips)
}

func TestSectionsAreSoftButMustGoIn(t *testing.T) {
	metre := cargo.Filling{AirL: 214, BalloonMM: 254}
	for _, row := range []struct {
		name    string
		section cargo.Sections
		trips   int
		cuts    int
		refused int
	}{
		{"four in 1600 litres, twelve in three trips", cargo.Sections{"s", 1000, 610, 12, metre}, 3, 0, 0},
		{"four in one", cargo.Sections{"s", 1000, 610, 4, metre}, 1, 0, 0},
		{"no section is shared between two trips: five of 1000 litres",
			cargo.Sections{"s", 1500, 860, 5, cargo.Filling{550, 254}}, 5, 0, 0},
		{"seven of 600 litres, two in each 1600", cargo.Sections{"s", 1500, 860, 7, cargo.Filling{330, 254}}, 4, 0, 0},
		{"three of 600 litres do not fit", cargo.Sections{"s", 1500, 860, 3, cargo.Filling{330, 254}}, 2, 0, 0},
		{"too long", cargo.Sections{"s", 5000, 610, 1, cargo.Filling{5 * 214, 254}}, 2, 1, 0},
		{"more air than goes in, cut in three", cargo.Sections{"s", 1800, 450, 1, cargo.Filling{2400, 254}}, 3, 1, 0},
		{"too thick", cargo.Sections{"s", 1000, 1100, 2, metre}, 0, 0, 1},
	} {
		t.Run(row.name, func(t *testing.T) {
			a, err := cargo.Pack(cargo.Space{LengthMM: 1900, WidthMM: 918, HeightMM: 918},
				cargo.Load{Sections: []cargo.Sections{row.section}, SqueezePct: 10})
			require.NoError(t, err)
			assert.Equal(t, row.trips, a.Trips)
			assert.Len(t, a.Cuts, row.cuts)
			assert.Len(t, a.Refused, row.refused)
		})
	}
}

func TestWallsAffectLargeBalloonsMore(t *testing.T) {
	usual, err := cargo.PackingFraction(cargo.Space{Litres: 1600}, 254)
	require.NoError(t, err)
	assert.InDelta(t, 0.5, usual, 0.03, "the usual packing was determined here")
	car := cargo.Space{LengthMM: 1900, WidthMM: 918, HeightMM: 918}
	litres := func(balloonMM float64) float64 {
		a, err := cargo.Pack(car, cargo.Load{Clusters: []cargo.Clusters{{"c", 600, 1, cargo.Filling{100, balloonMM}}}})
		require.NoError(t, err)
		return a.Litres
	}
	assert.InDelta(t, 100/cargo.CommonPacking, litres(127), 1e-9)
	assert.InDelta(t, litres(127), litres(254), 1e-9)
	assert.Greater(t, litres(406), litres(254))
	assert.Greater(t, litres(546), litres(406))
}

func TestPackingOfOnesOwn(t *testing.T) {
	load := cargo.Load{Clusters: []cargo.Clusters{{"quads", 576, 24, quad}}, Packing: 0.4}
	a, err := cargo.Pack(cargo.Space{Litres: 1600}, load)
	require.NoError(t, err)
	assert.InDelta(t, 24*quad.AirL/0.4, a.Litres, 1e-9)
	assert.Equal(t, 2, a.Trips)
}
