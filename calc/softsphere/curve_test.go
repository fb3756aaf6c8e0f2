package softsphere_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/softsphere"
)

func TestProfileOfQuads(t *testing.T) {
	profile, err := softsphere.NewProfile(alike(4, 241.3))
	require.NoError(t, err)
	twice, err := softsphere.NewProfile(alike(4, 482.6))
	require.NoError(t, err)
	assert.Equal(t, profile.Curve, twice.Curve, "a curve does not depend on size")
	assert.InDeltaSlice(t, profile.Width[:], twice.Width[:], 1e-9)
	assert.InDeltaSlice(t, profile.Widest[:], twice.Widest[:], 1e-9)
	assert.InDelta(t, profile.Seen, twice.Seen, 1e-9)
	for i := range softsphere.Points {
		if i > 0 {
			assert.LessOrEqual(t, profile.Pitch[i], profile.Pitch[i-1], "a harder push cannot move them further apart")
		}
		assert.Less(t, profile.Width[i], profile.Widest[i], "the mean is below the largest")
		assert.True(t, profile.Coverage[i] > 0 && profile.Coverage[i] <= 1)
	}
	assert.Less(t, profile.Seen, profile.Ball, "what is seen fits into the sphere")
	for _, push := range softsphere.Pushes() {
		pitch := profile.Pitch.At(push)
		back, reached := profile.PushAt(pitch)
		require.True(t, reached)
		assert.InDelta(t, pitch, profile.Pitch.At(back), 1e-12)
	}
	_, reached := profile.PushAt(profile.Pitch[0] + 0.1)
	assert.False(t, reached, "clusters apart have no push")
	_, reached = profile.PushAt(profile.Pitch[softsphere.Points-1] - 0.1)
	assert.False(t, reached, "crushed")
}

// TestSketchIsTheCurve checks that a sketch is the same curve without coverages, with pauses.
func TestSketchIsTheCurve(t *testing.T) {
	diameters := []float64{254, 254, 406, 406}
	profile, err := softsphere.NewProfile(diameters)
	require.NoError(t, err)
	pauses := 0
	sketch, err := softsphere.Sketch(diameters, func() { pauses++ })
	require.NoError(t, err)
	assert.Greater(t, pauses, 5*softsphere.Points, "every start must pause")
	assert.Zero(t, sketch.Coverage)
	assert.Equal(t, profile.Pitch, sketch.Pitch)
	_, err = softsphere.Sketch(nil, nil)
	assert.ErrorIs(t, err, softsphere.ErrSpheres)
	_, err = softsphere.NewProfile(nil)
	assert.ErrorIs(t, err, softsphere.ErrSpheres)
}

func TestCurveIsStraightBetweenAndLevelBeyond(t *testing.T) {
	var curve softsphere.Curve
	for i := range softsphere.Points {
		curve.Pitch[i] = float64(softsphere.Points - i)
	}
	pushes := softsphere.Pushes()
	assert.InDelta(t, float64(softsphere.Points)-0.5, curve.Pitch.At((pushes[0]+pushes[1])/2), 1e-12)
	assert.Equal(t, [2]float64{float64(softsphere.Points), 1}, [2]float64{curve.Pitch.At(0), curve.Pitch.At(100)})
	half := curve
	half.Mix(&softsphere.Curve{}, 0.5)
	assert.InDelta(t, float64(softsphere.Points)/2, half.Pitch[0], 1e-12)
}
