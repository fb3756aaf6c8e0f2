package rig_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/rig"
)

// TestLinePull checks statics: two lines at an angle carry W/(2 cos) each; at 60° each carries all of it. Knot 0.5 and
// factor 5 are from memory.
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
