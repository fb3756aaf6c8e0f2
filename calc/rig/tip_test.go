package rig_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/rig"
)

// TestWindPressure checks ASCE 7: 0.613 v² and 0.00256 V² psf (equation from memory, both are half of 1.225 kg/m³), and
// EN 1991-1-4 clause 4.5: half of 1.25.
func TestWindPressure(t *testing.T) {
	const mph, psf = 0.44704, 47.88025898
	for _, row := range []struct {
		name               string
		mps, density, want float64
		relative           float64
	}{
		{"ASCE 7, 10 m/s", 10, 1.225, 61.3, 1e-3},
		{"ASCE 7, 20 m/s", 20, 1.225, 245, 1e-3},
		{"ASCE 7, 20 mph", 20 * mph, 1.225, 1.024 * psf, 2e-3},
		{"ASCE 7, 90 mph", 90 * mph, 1.225, 20.7 * psf, 3e-3},
		{"ASCE 7, 115 mph", 115 * mph, 1.225, 33.9 * psf, 3e-3},
		{"EN 1991-1-4, 10 m/s", 10, 0, 62.5, 1e-12},
	} {
		assert.InEpsilon(t, row.want, rig.WindPressurePa(row.mps, row.density), row.relative, row.name)
	}
}

// TestFriction checks Pallett, Gorst, Clark, Thomas, Concrete 36(6) 2002, quoted by The Concrete Society: concrete 0.4,
// smooth steel on cast concrete 0.1, wood 0.7; EN 12812: steel on concrete at least 0.3.
func TestFriction(t *testing.T) {
	for name, friction := range map[string]float64{
		"concrete weights on concrete": 0.4, "steel feet on smooth cast concrete": 0.1,
		"wood feet on concrete": 0.7, "steel feet on concrete": 0.3,
	} {
		g, ok := rig.FindGround(name)
		require.True(t, ok, name)
		assert.Equal(t, friction, g.Friction, name)
		assert.Equal(t, rig.MarkPublished, g.Mark, name)
		assert.NotEmpty(t, g.Source, name)
	}
	_, ok := rig.FindGround("ice")
	assert.False(t, ok)
}

func backdrop() rig.Frame {
	return rig.Frame{WidthMM: 2000, HeightMM: 2000, BottomMM: 250, MassG: 20_000, BaseDepthMM: 1000,
		BaseWidthMM: 2000, Friction: 0.5}
}

// TestTipWorkedExample is computed by hand: a flat 2 m square, its middle 1.25 m up, in 10 m/s at 1.25 kg/m³ and
// 1.80 (EN 1991-1-4 clauses 4.5 and 7.4.3): 62.5 × 1.80 × 4 = 450 N, at 1.35 m (ASCE 7-16 figure 29.3-1: 0.05 of the
// height above the middle) 607.5 N m; half base 0.5 m and factor 1.5 need 1822.5 N, 185.8 kg. Sliding: 450 × 1.5 /
// 0.5 = 1350 N.
func TestTipWorkedExample(t *testing.T) {
	f := backdrop()
	tip, err := f.Tip(rig.Push{WindMPS: 10}, rig.TipRule{})
	require.NoError(t, err)
	assert.InEpsilon(t, 450, tip.WindN, 1e-9)
	assert.Equal(t, rig.CodeEN, tip.Drag.Code)
	assert.Equal(t, 166.0, tip.BallastKG, "185.8 kg less the 20 kg of the frame, rounded up")
	assert.Equal(t, rig.VerdictBallast, tip.Verdict)
	assert.Equal(t, []float64{0.75}, tip.Notes[1].Figures,
		"one foot's share of a push a quarter off the middle, EN 1991-1-4 clause 7.4.3")
	assert.InEpsilon(t, 20*gravity*0.5/607.5, tip.OverturnFactor, 1e-9)
	assert.InEpsilon(t, 0.5*20*gravity/450, tip.SlideFactor, 1e-9)
}

// TestWindFromTheSide is computed by hand: a box 2 m high and 0.5 m deep catches 62.5 Pa (10 m/s, EN 1991-1-4) on 1 m²
// of its side. That side is a quarter as wide as high and on the ground: 1.65 - 0.1 × 0.05 / 0.3 = 1.633 (ASCE 7-16
// figure 29.3-1), less than the 1.80 of EN 1991-1-4: 112.5 N at 1.1 m, 123.75 N m. 20 kg on feet 0.4 m wide right it
// with 20 × 9.80665 × 0.2 = 39.23 N m, which is 0.317 of it. Its front, 450 N on feet 3 m deep, has 0.594.
func TestWindFromTheSide(t *testing.T) {
	box := rig.Frame{WidthMM: 2000, HeightMM: 2000, DepthMM: 500, MassG: 20_000, BaseDepthMM: 3000,
		BaseWidthMM: 400, Friction: 1.2}
	tip, err := box.Tip(rig.Push{WindMPS: 10}, rig.TipRule{})
	require.NoError(t, err)
	assert.Contains(t, []string{"left", "right"}, tip.WorstEdge)
	assert.InDelta(t, 0.3170, tip.OverturnFactor, 0.0001)
	// Up to 1.5: 185.6 N m / 0.2 m / 9.80665 = 94.6 kg in total, more than sliding needs.
	assert.Equal(t, 75.0, tip.BallastKG)
}

// TestBallastIsJustEnough checks that the frame holds with the returned ballast and fails with one kilogram less.
func TestBallastIsJustEnough(t *testing.T) {
	for _, friction := range []float64{0.1, 0.3, 0.7} {
		f := backdrop()
		f.Friction = friction
		push := rig.Push{WindMPS: 8, PushN: 50, PushAtMM: 1200}
		need, err := f.Tip(push, rig.TipRule{})
		require.NoError(t, err)
		f.MassG += need.BallastKG * 1000
		enough, err := f.Tip(push, rig.TipRule{})
		require.NoError(t, err)
		assert.Equal(t, rig.VerdictHolds, enough.Verdict)
		assert.GreaterOrEqual(t, min(enough.OverturnFactor, enough.SlideFactor), 1.5-1e-9)
		f.MassG -= 1000
		short, err := f.Tip(push, rig.TipRule{})
		require.NoError(t, err)
		assert.Less(t, min(short.OverturnFactor, short.SlideFactor), 1.5)
	}
}

// TestTakeDownWind checks the thresholds of 60 % and 80 % (event guide of Bute Park, Cardiff council). At the strongest
// wind the factor is exactly 1.5.
func TestTakeDownWind(t *testing.T) {
	f := backdrop()
	f.MassG = 60_000
	tip, err := f.Tip(rig.Push{WindMPS: 4}, rig.TipRule{})
	require.NoError(t, err)
	assert.InEpsilon(t, 0.6*tip.MaxWindMPS, tip.WatchMPS, 1e-12)
	assert.InEpsilon(t, 0.8*tip.MaxWindMPS, tip.TakeDownMPS, 1e-12)
	assert.Contains(t, fmt.Sprint(tip.Notes), "take it down")
	limit, err := f.Tip(rig.Push{WindMPS: tip.MaxWindMPS}, rig.TipRule{})
	require.NoError(t, err)
	assert.InDelta(t, 1.5, min(limit.OverturnFactor, limit.SlideFactor), 1e-9)

	f.MassG = 4e6 // no weight is enough for a gale
	heavy, err := f.Tip(rig.Push{WindMPS: 15}, rig.TipRule{})
	require.NoError(t, err)
	assert.Equal(t, rig.HighestWindMPS, heavy.MaxWindMPS)
	assert.Equal(t, rig.VerdictDoNotUse, heavy.Verdict)

	indoors, err := backdrop().Tip(rig.Push{PushN: 100, PushAtMM: 1000}, rig.TipRule{})
	require.NoError(t, err)
	assert.Zero(t, indoors.MaxWindMPS)
	leaning, err := backdrop().Tip(rig.Push{WindMPS: 1, PushN: 300, PushAtMM: 1500}, rig.TipRule{})
	require.NoError(t, err)
	assert.Zero(t, leaning.MaxWindMPS)
	assert.Contains(t, fmt.Sprint(leaning.Notes), "not safe in any wind")
}

// TestWorstEdge checks that the worst edge is the one nearest to the weight, or on the narrow side for a push.
func TestWorstEdge(t *testing.T) {
	f := backdrop()
	f.ForwardMM = 100
	tip, err := f.Tip(rig.Push{WindMPS: 5}, rig.TipRule{})
	require.NoError(t, err)
	assert.Equal(t, "front", tip.WorstEdge)
	f.ForwardMM = -100
	tip, err = f.Tip(rig.Push{WindMPS: 5}, rig.TipRule{})
	require.NoError(t, err)
	assert.Equal(t, "back", tip.WorstEdge)
	column := rig.Frame{WidthMM: 400, HeightMM: 1800, MassG: 6000, BaseDepthMM: 500, BaseWidthMM: 300, Friction: 0.4}
	tip, err = column.Tip(rig.Push{PushN: 20, PushAtMM: 1500}, rig.TipRule{})
	require.NoError(t, err)
	assert.Equal(t, "left", tip.WorstEdge)
	// W e / (P h) by hand.
	assert.InEpsilon(t, 6*gravity*0.15/(20*1.5), tip.OverturnFactor, 1e-12)
}

func TestTipErrors(t *testing.T) {
	f := backdrop()
	for name, err := range map[string]error{
		"nothing pushes":    second(f.Tip(rig.Push{}, rig.TipRule{})),
		"push at no height": second(f.Tip(rig.Push{PushN: 50}, rig.TipRule{})),
		"no frame":          second(rig.Frame{}.Tip(rig.Push{WindMPS: 5}, rig.TipRule{})),
		"storm":             second(f.Tip(rig.Push{WindMPS: 99}, rig.TipRule{})),
		"no factor":         second(f.Tip(rig.Push{WindMPS: 5}, rig.TipRule{OverturnFactor: 0.5})),
		"NaN":               second(f.Tip(rig.Push{WindMPS: math.NaN()}, rig.TipRule{})),
	} {
		assert.ErrorIs(t, err, rig.ErrInput, name)
	}
}

func ExampleFrame_Tip() {
	// A garlanded frame at the library door, on concrete, gusts of 6 m/s.
	f := rig.Frame{WidthMM: 2400, HeightMM: 2200, MassG: 18_000, BaseDepthMM: 900, BaseWidthMM: 2400,
		Solidity: 0.6, Friction: 0.3}
	t, _ := f.Tip(rig.Push{WindMPS: 6}, rig.TipRule{})
	fmt.Printf("wind pushes with %.0f N, factors %.1f and %.1f: %s, %.0f kg\n",
		t.WindN, t.OverturnFactor, t.SlideFactor, t.Verdict, t.BallastKG)
	// Output: wind pushes with 128 N, factors 0.5 and 0.4: needs ballast, 48 kg
}
