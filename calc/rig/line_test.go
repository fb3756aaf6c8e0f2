package rig_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/rig"
)

// Statics: two lines at an angle carry W/(2 cos); at 60° each carries all of it.
// Knot 0.5 and factor 5 are from memory.
func TestLinePull(t *testing.T) {
	for _, row := range []struct {
		name   string
		points int
		angle  float64
		want   float64 // of the weight
	}{
		{"one line", 1, 0, 1},
		{"two straight", 2, 0, 0.5},
		{"two at 60 degrees", 2, 60, 1},
		{"two at 45 degrees", 2, 45, math.Sqrt2 / 2},
		{"four: two carry all", 4, 0, 0.5},
	} {
		h, err := rig.Line{MassG: 2000, Points: row.points, AngleDeg: row.angle, StrengthN: 400}.Hold()
		require.NoError(t, err)
		assert.InEpsilon(t, row.want*2*gravity, h.PerLineN, 1e-9, row.name)
		assert.InEpsilon(t, 400*0.5/5, h.AllowedN, 1e-12, row.name)
		assert.InEpsilon(t, 200/h.PerLineN, h.Factor, 1e-12, row.name)
	}
}

func TestLineVerdicts(t *testing.T) {
	just := rig.Line{MassG: 2000, Points: 2, StrengthN: 10 * gravity}
	h, err := just.Hold()
	require.NoError(t, err)
	assert.Equal(t, rig.VerdictHolds, h.Verdict, "exactly the factor of 5 holds")
	just.MassG = 2001
	h, err = just.Hold()
	require.NoError(t, err)
	assert.Equal(t, rig.VerdictDoNotUse, h.Verdict)
	flat := rig.Line{MassG: 10, Points: 2, AngleDeg: 61, StrengthN: 1000}
	h, err = flat.Hold()
	require.NoError(t, err)
	assert.Equal(t, rig.VerdictDoNotUse, h.Verdict, "leans too far")
}

func TestLineOverPeopleHasNoVerdict(t *testing.T) {
	h, err := rig.Line{MassG: 1, Points: 2, StrengthN: 1e5, OverPeople: true}.Hold()
	require.NoError(t, err)
	assert.Equal(t, rig.VerdictNone, h.Verdict)
	assert.Zero(t, h.AllowedN)
	assert.Zero(t, h.Factor)
	assert.Contains(t, fmt.Sprint(h.Notes), "rated points")
	assert.Contains(t, fmt.Sprint(h.Notes), "licensed rigger")
}

func TestLineErrors(t *testing.T) {
	for name, l := range map[string]rig.Line{
		"no points":   {MassG: 1, StrengthN: 10},
		"flat":        {MassG: 1, Points: 2, AngleDeg: 90, StrengthN: 10},
		"no strength": {MassG: 1, Points: 2},
		"knot":        {MassG: 1, Points: 2, StrengthN: 10, KnotFactor: 2},
	} {
		_, err := l.Hold()
		assert.ErrorIs(t, err, rig.ErrInput, name)
	}
}

// NIOSH 94-110, Example 1 (punch press stock): reach 23 in, hands 15 to 64 in,
// travel 49 in, grip 0.95 and 1.0: 16.3 and 14.5 lb with its rounded
// multipliers, 16.0 and 14.2 lb unrounded (from memory, worked outside). Example
// 4 (p. 46, fig. 14): its multipliers give 34.9 lb printed, 34.8 lb unrounded.
func TestLiftingLimit(t *testing.T) {
	const inch, pound = 25.4, 453.59237
	for _, row := range []struct {
		name                         string
		reach, hands, travel, grip   float64
		printedPounds, unroundedOnes float64
	}{
		{"origin", 23, 15, 49, 0.95, 16.3, 16.0},
		{"destination", 23, 64, 49, 1, 14.5, 14.2},
	} {
		limit, err := rig.Lifting{ReachMM: row.reach * inch, HandsMM: row.hands * inch, TravelMM: row.travel * inch,
			Coupling: row.grip}.Limit()
		require.NoError(t, err)
		assert.InDelta(t, row.unroundedOnes, limit/pound, 0.05, row.name)
		assert.InDelta(t, row.printedPounds, limit/pound, 0.4, row.name)
	}
	// Multipliers 1.0, 0.94 (8 in off 30), 0.87 (36 in of travel), 0.88, 0.95.
	four, err := rig.Lifting{ReachMM: 10 * inch, HandsMM: 38 * inch, TravelMM: 36 * inch, Frequency: 0.88,
		Coupling: 0.95}.Limit()
	require.NoError(t, err)
	assert.InDelta(t, 34.9, four/pound, 0.2)
	best, err := rig.Lifting{ReachMM: 250, HandsMM: 30 * inch, TravelMM: 250}.Limit()
	require.NoError(t, err)
	assert.InDelta(t, 23_133, best, 1, "all multipliers 1: 51 lb")
	// NIOSH 94-110, table 4, asymmetry multiplier by degrees of twist (from memory).
	for degrees, multiplier := range map[float64]float64{0: 1, 15: 0.95, 30: 0.90, 45: 0.86, 60: 0.81, 75: 0.76,
		90: 0.71, 105: 0.66, 120: 0.62, 135: 0.57, 136: 0} {
		twisted, err := rig.Lifting{ReachMM: 250, HandsMM: 30 * inch, TravelMM: 250, TwistDeg: degrees}.Limit()
		require.NoError(t, err)
		assert.InDelta(t, multiplier, twisted/best, 0.005, "%g degrees", degrees)
	}
	far, err := rig.Lifting{ReachMM: 650, HandsMM: 750}.Limit()
	require.NoError(t, err)
	assert.Zero(t, far, "beyond 25 in: not at all")
	_, err = rig.Lifting{ReachMM: -1}.Limit()
	assert.ErrorIs(t, err, rig.ErrInput)
}

func TestCautionsDefer(t *testing.T) {
	for _, list := range [][]string{rig.DipCautions(), rig.TipCautions(), rig.LineCautions()} {
		for _, text := range list {
			assert.NotEmpty(t, text)
		}
	}
	assert.Contains(t, rig.LineCautions()[0], "licensed rigger")
	assert.Contains(t, rig.TipCautions()[0], "Local codes")
}

func ExampleLine_Hold() {
	sign := rig.Line{MassG: 1200, Points: 2, AngleDeg: 30, StrengthN: rig.WeightN(9000)}
	h, _ := sign.Hold()
	fmt.Printf("%.1f N in the worst line, good for %.1f N: %s\n", h.PerLineN, h.AllowedN, h.Verdict)
	sign.OverPeople = true
	h, _ = sign.Hold()
	fmt.Println(h.Verdict)
	// Output:
	// 6.8 N in the worst line, good for 8.8 N: holds
	// no verdict
}
