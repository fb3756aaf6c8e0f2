package cargo_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"garlandry/calc/cargo"
)

// The densest random packing of balls: J. G. Berryman, Physical Review A 27 (1983) 1053.
const densest = 0.64

// TestNoLoadIsDenserThanRandomPacking draws loads whose air is known, and checks each kind alone and all together.
// Rapid prints the seed of a failure.
func TestNoLoadIsDenserThanRandomPacking(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		space, load := drawSpace(t), drawLoad(t)
		load.SqueezePct = rapid.Float64Range(0, cargo.LargestSqueeze).Draw(t, "give")
		load.Packing = rapid.Float64Range(cargo.LeastPacking, cargo.MostPacking).Draw(t, "packing")
		known := load.Sections[:0:0]
		for _, s := range load.Sections {
			if s.Filling.AirL > 0 {
				known = append(known, s)
			}
		}
		load.Sections = known
		air := airByName(&load)
		answer, err := cargo.Pack(space, load)
		require.NoError(t, err)
		litres, all := map[string]float64{}, 0.0
		for _, share := range answer.Shares {
			litres[share.Name] += share.Litres
		}
		for name, needs := range litres {
			all += air[name]
			assert.GreaterOrEqual(t, needs*(1+1e-9), air[name]/densest, name)
		}
		assert.LessOrEqual(t, all, densest*float64(answer.Trips)*answer.SpaceLitres*(1+1e-9), "all trips together")
		assert.LessOrEqual(t, answer.Litres, float64(answer.Trips)*answer.SpaceLitres*(1+1e-9))
	})
}

// airByName gives each kind of a load a name of its own and returns its litres of air.
func airByName(load *cargo.Load) map[string]float64 {
	air := map[string]float64{}
	for i := range load.Balls {
		b := &load.Balls[i]
		b.Name = fmt.Sprint("balls ", i)
		air[b.Name] = float64(b.Count) * max(b.AirL, math.Pi/6*math.Pow(b.DiameterMM, 3)/1e6)
	}
	for i := range load.Clusters {
		c := &load.Clusters[i]
		c.Name = fmt.Sprint("clusters ", i)
		air[c.Name] = float64(c.Count) * c.Filling.AirL
	}
	for i := range load.Sections {
		s := &load.Sections[i]
		s.Name = fmt.Sprint("sections ", i)
		air[s.Name] = float64(s.Count) * s.Filling.AirL
	}
	return air
}

// TestWhatHoldsMoreThanTheSpaceIsRefused: a cluster of 77 litres of air does not travel in 100 litres, and a ball of a
// metre does not travel in a space of a litre, however wide the space is.
func TestWhatHoldsMoreThanTheSpaceIsRefused(t *testing.T) {
	for name, row := range map[string]struct {
		space cargo.Space
		load  cargo.Load
	}{
		"cluster": {cargo.Space{Litres: 100},
			cargo.Load{Clusters: []cargo.Clusters{{"c", 400, 2, cargo.Filling{AirL: 77, BalloonMM: 400}}}}},
		"ball": {cargo.Space{LengthMM: 1000, WidthMM: 1000, HeightMM: 1000, Litres: 1},
			cargo.Load{Balls: []cargo.Balls{{"b", 1000, 1, 0}}}},
		"pressed ball": {cargo.Space{Litres: 1000},
			cargo.Load{Balls: []cargo.Balls{{"b", 1100, 1, 0}}, SqueezePct: 10}},
	} {
		answer, err := cargo.Pack(row.space, row.load)
		require.NoError(t, err, name)
		require.Len(t, answer.Refused, 1, name)
		assert.Equal(t, cargo.SpaceTooSmall, answer.Refused[0].Reason, name)
		assert.False(t, answer.Fits, name)
		each, err := cargo.Needs(row.space, row.load)
		require.NoError(t, err, name)
		assert.Equal(t, []float64{0}, each, name)
	}
}

// TestNeedsAreThoseOfOneThing: 29.43 litres at 0.55, a section of its air, and one that is too long.
func TestNeedsAreThoseOfOneThing(t *testing.T) {
	each, err := cargo.Needs(cargo.Space{LengthMM: 1900, WidthMM: 918, HeightMM: 918}, cargo.Load{
		Clusters: []cargo.Clusters{{"quads", 576, 24, quad}},
		Sections: []cargo.Sections{{"short", 1000, 610, 3, cargo.Filling{AirL: 214, BalloonMM: 254}},
			{"long", 4000, 610, 1, cargo.Filling{AirL: 856, BalloonMM: 254}}}})
	require.NoError(t, err)
	require.Len(t, each, 3)
	assert.InDelta(t, 29.43/0.55, each[0], 0.5)
	assert.InDelta(t, 214/0.55, each[1], 4)
	assert.Zero(t, each[2])
}
