package nest_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/nest"
)

// A curve made in steps has to the bit the figures of strings relaxed in one go, and
// the ball of a cluster relaxed in one go.
func TestWorkIsTypical(t *testing.T) {
	diameters := []float64{254, 254, 406, 406}
	w, err := nest.NewWork(diameters)
	require.NoError(t, err)
	steps := 0
	for w.Step() {
		steps++
	}
	assert.False(t, w.Step(), "nothing is left")
	assert.Greater(t, steps, 16+2*5*nest.Points, "in small steps")
	mean := 330.0
	for i, push := range nest.Pushes() {
		typical, err := nest.Typical(diameters, push)
		require.NoError(t, err)
		assert.Equal(t, typical.GirthMM/mean, w.Curve().Girth[i], "push %g", push)
		assert.Equal(t, typical.Coverage, w.Curve().Coverage[i], "push %g", push)
		if w.Curve().Pitch[i] != w.Curve().Pitch[max(i, 1)-1] {
			assert.Equal(t, typical.PitchMM/mean, w.Curve().Pitch[i], "push %g", push)
		}
	}
	free, err := nest.Free(diameters)
	require.NoError(t, err)
	assert.Equal(t, free.BallMM()/mean, w.Curve().Ball)
	_, err = nest.NewWork(nil)
	assert.ErrorIs(t, err, nest.ErrSpheres)
}
