package softsphere_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/softsphere"
)

func TestCurveOfQuads(t *testing.T) {
	curve, err := softsphere.NewCurve(alike(4, 241.3))
	require.NoError(t, err)
	twice, err := softsphere.NewCurve(alike(4, 482.6))
	require.NoError(t, err)
	assert.Equal(t, curve, twice, "a curve does not depend on size")
	for i := 1; i < softsphere.Points; i++ {
		assert.LessOrEqual(t, curve.Pitch[i], curve.Pitch[i-1], "a harder push cannot move them further apart")
	}
	for _, push := range softsphere.Pushes() {
		pitch, girth, coverage := curve.At(push)
		assert.Positive(t, girth)
		assert.True(t, coverage > 0 && coverage <= 1)
		back, reached := curve.PushAt(pitch)
		require.True(t, reached)
		again, _, _ := curve.At(back)
		assert.InDelta(t, pitch, again, 1e-12)
	}
	_, reached := curve.PushAt(curve.Pitch[0] + 0.1)
	assert.False(t, reached, "clusters apart have no push")
	_, reached = curve.PushAt(curve.Pitch[softsphere.Points-1] - 0.1)
	assert.False(t, reached, "crushed")
}

// TestSketchIsTheCurve checks that a sketch is the same curve without coverages, with pauses.
func TestSketchIsTheCurve(t *testing.T) {
	diameters := []float64{254, 254, 406, 406}
	curve, err := softsphere.NewCurve(diameters)
	require.NoError(t, err)
	pauses := 0
	sketch, err := softsphere.Sketch(diameters, func() { pauses++ })
	require.NoError(t, err)
	assert.Greater(t, pauses, 5*softsphere.Points, "every start must pause")
	assert.Zero(t, sketch.Coverage)
	sketch.Coverage = curve.Coverage
	assert.Equal(t, curve, sketch)
	_, err = softsphere.Sketch(nil, nil)
	assert.ErrorIs(t, err, softsphere.ErrSpheres)
}

func TestCurveIsStraightBetweenAndLevelBeyond(t *testing.T) {
	var curve softsphere.Curve
	for i := range softsphere.Points {
		curve.Pitch[i] = float64(softsphere.Points - i)
	}
	pushes := softsphere.Pushes()
	middle, _, _ := curve.At((pushes[0] + pushes[1]) / 2)
	assert.InDelta(t, float64(softsphere.Points)-0.5, middle, 1e-12)
	before, _, _ := curve.At(0)
	beyond, _, _ := curve.At(100)
	assert.Equal(t, [2]float64{float64(softsphere.Points), 1}, [2]float64{before, beyond})
	half := curve
	half.Mix(&softsphere.Curve{}, 0.5)
	assert.InDelta(t, float64(softsphere.Points)/2, half.Pitch[0], 1e-12)
}
