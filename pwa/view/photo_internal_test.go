package view

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan/look"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestALookLiesOnAPhotoToScale checks the law of the overlay: whatever the photo, a length on the wall and the same
// length of the look are equally long in the picture, and the look's middle and foot are where the photo says.
func TestALookLiesOnAPhotoToScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := job.Photo{WidthPX: rapid.IntRange(300, 1600).Draw(t, "wide"),
			HeightPX:  rapid.IntRange(300, 1600).Draw(t, "high"),
			FirstXPct: rapid.Float64Range(0, 30).Draw(t, "x1"), SecondXPct: rapid.Float64Range(60, 100).Draw(t, "x2"),
			FirstYPct: rapid.Float64Range(0, 100).Draw(t, "y1"), SecondYPct: rapid.Float64Range(0, 100).Draw(t, "y2"),
			DistanceMM: rapid.Float64Range(100, 10000).Draw(t, "mm"), AtXPct: rapid.Float64Range(-50, 150).Draw(t, "at x"),
			AtYPct: rapid.Float64Range(-50, 150).Draw(t, "at y")}
		l := &look.Look{Balloons: make([]look.Balloon, 1), Stands: rapid.Bool().Draw(t, "stands"),
			LeftMM: rapid.Float64Range(-2000, 0).Draw(t, "left"), RightMM: rapid.Float64Range(1, 3000).Draw(t, "right"),
			BottomMM: rapid.Float64Range(-100, 2000).Draw(t, "bottom"), TopMM: 3000}
		f, known := placed(&p, l)
		require.True(t, known)
		across := (p.SecondXPct - p.FirstXPct) / 100 * float64(p.WidthPX) * photoUnits
		down := (p.SecondYPct - p.FirstYPct) / 100 * float64(p.HeightPX) * photoUnits
		assert.InEpsilon(t, math.Hypot(across, down), p.DistanceMM*f.scale, 1e-9)
		middle, foot := (l.LeftMM+l.RightMM)/2, l.BottomMM
		if l.Stands {
			foot = 0
		}
		assert.InDelta(t, p.AtXPct/100*float64(p.WidthPX)*photoUnits, (middle-f.left)*f.scale, 1e-6)
		assert.InDelta(t, p.AtYPct/100*float64(p.HeightPX)*photoUnits, (f.top-foot)*f.scale, 1e-6)
	})
}

func TestWithoutAScaleNothingLiesOnAPhoto(t *testing.T) {
	l := &look.Look{Balloons: make([]look.Balloon, 1)}
	p := job.Photo{WidthPX: 1000, HeightPX: 1000, FirstXPct: 10, SecondXPct: 90}
	_, known := placed(&p, l)
	assert.False(t, known)
	p.DistanceMM = 1000
	_, known = placed(&p, l)
	assert.True(t, known)
	for _, none := range []*look.Look{nil, {}} {
		_, known = placed(&p, none)
		assert.False(t, known)
	}
}

// TestBalloonsAreAsBrightAsTheRoom: the grey to which cameras expose is L* 49.5 (18 % reflectance, CIE 15).
func TestBalloonsAreAsBrightAsTheRoom(t *testing.T) {
	for light, slope := range map[float64]string{0: "0.5", 20: "0.7", 50: "1", 65: "1.15", 100: "1.2"} {
		var b bytes.Buffer
		require.NoError(t, lit(light).Render(&b))
		assert.Equal(t, 3, strings.Count(b.String(), `slope="`+slope+`"`), "%g: %s", light, b.String())
	}
}
