package picture_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/calc/cluster"
	"garlandry/calc/picture"
)

// TestRingsTouch checks rings against plane geometry: n equal balloons that touch around a pole are d / (2 sin(pi/n))
// from it (by trigonometry, with the standard library's sine).
func TestRingsTouch(t *testing.T) {
	for duplets := 1; duplets <= 8; duplets++ {
		r := cluster.Recipe{{Duplets: duplets, SizeIn: 11, ToIn: 10}}
		n := 2 * duplets
		balloons, _ := picture.Column(picture.Equal(r, 3), cluster.StandardPush(), 1, 0)
		x := (picture.ExtentOf(balloons).LeftMM + picture.ExtentOf(balloons).RightMM) / 2
		for i, b := range balloons {
			next := balloons[i/n*n+(i+1)%n]
			assert.InEpsilon(t, 254, apart(b, next), 0.01, "%d in a ring", n)
			assert.InEpsilon(t, 127/math.Sin(math.Pi/float64(n)), math.Hypot(b.XMM-x, b.DepthMM), 0.01, "%d in a ring", n)
			if i >= n {
				below := balloons[i-n]
				cos := ((b.XMM-x)*(below.XMM-x) + b.DepthMM*below.DepthMM) / math.Hypot(b.XMM-x, b.DepthMM) /
					math.Hypot(below.XMM-x, below.DepthMM)
				assert.InDelta(t, math.Cos(math.Pi/float64(n)), cos, 0.01, "turned half a step, %d in a ring", n)
			}
		}
	}
}

// TestRingsOfSeveralSizes checks that nobody overlaps, and that neighbours touch where a ring can be closed.
func TestRingsOfSeveralSizes(t *testing.T) {
	for text, closed := range map[string]bool{
		"2x11@10 + 1x18@16": true, "2x11@10 + 2x18@16": true, "1x24@22 + 1x5@5": false, "3x11@10 + 1x16@14": true,
		"1x5@5 + 1x11@10 + 1x18@16": true, "2x36@36 + 1x5@2": false,
	} {
		r := recipe(t, text)
		c := picture.Equal(r, 1)
		ring, _ := picture.Column(c, cluster.StandardPush(), 1, 0)
		assertHolds(t, c, ring)
		for i, a := range ring {
			nearest := math.Inf(1)
			for k, b := range ring {
				if k != i {
					nearest = min(nearest, apart(a, b)-a.RadiusMM-b.RadiusMM)
				}
			}
			assert.GreaterOrEqual(t, nearest, -0.01*a.RadiusMM, "%s: %+v", text, a)
			if closed {
				assert.LessOrEqual(t, nearest, 0.01*a.RadiusMM, "%s: %+v", text, a)
			}
		}
	}
}

// TestColumnIsAsHighAsCounted builds twelve quads at 9.5 in, 72 in: the first layer is 9.5 in high and each further
// one adds 6 in (two layers a foot, common practice).
func TestColumnIsAsHighAsCounted(t *testing.T) {
	c := picture.Equal(recipe(t, "2x11@9.5"), 36)
	balloons, lines := picture.Column(c, cluster.StandardPush(), 3, 0)
	assertHolds(t, c, balloons)
	e := picture.ExtentOf(balloons)
	assert.InDelta(t, 0, e.BottomMM, 1e-6)
	assert.InDelta(t, (9.5+11*6)*25.4, e.TopMM, 15)
	assert.Len(t, lines, 6)
	columns := make([]picture.Extent, 3)
	for i := range columns {
		columns[i] = picture.ExtentOf(balloons[i*48 : (i+1)*48])
	}
	for i := 1; i < 3; i++ {
		assert.Greater(t, columns[i].LeftMM-columns[i-1].RightMM, 200.0, "a clear gap")
	}
	half, _ := picture.Column(c, cluster.StandardPush(), 3, 76.2)
	assert.InDelta(t, 9.5*25.4+11*76.2, picture.ExtentOf(half).TopMM, 1)
}

// TestWallStaysInItsFrame checks the wall against what is counted: columns and rows are rounded up, so the wall is at
// most one step wider and higher than asked, and rings stick out by what their girth is over what they look.
func TestWallStaysInItsFrame(t *testing.T) {
	const widthMM, heightMM = 2400.0, 2100.0
	for _, text := range recipes {
		r, push := recipe(t, text), cluster.StandardPush()
		shown := cluster.Measure(r, push)
		apartMM, _ := cluster.SideBySideMM(r, push, cluster.SideBySideReach)
		largest := 0.0
		for _, d := range r.DiametersMM() {
			largest = max(largest, d)
		}
		strips := 1 + int(math.Ceil((widthMM-shown.WidthMM)/apartMM))
		rows := 1 + int(math.Ceil((heightMM-largest)/shown.PitchMM))
		c := picture.Equal(r, strips*rows)
		balloons := picture.Wall(c, push, strips, apartMM)
		assertHolds(t, c, balloons)
		e := picture.ExtentOf(balloons)
		over := (shown.WidestMM - shown.WidthMM) / 2
		assert.GreaterOrEqual(t, e.LeftMM, -over-1, text)
		assert.LessOrEqual(t, e.RightMM, widthMM+apartMM+over+1, text)
		assert.GreaterOrEqual(t, e.BottomMM, -1e-6, text)
		assert.LessOrEqual(t, e.TopMM, heightMM+shown.PitchMM+1, text)
		assert.GreaterOrEqual(t, e.TopMM, heightMM-1, text)
		assert.GreaterOrEqual(t, e.RightMM, widthMM-over, text)
	}
}

// TestQuadsOfAWallNest checks the geometry that cluster.SideBySideReach counts by: touching quads in strings 2.0731
// diameters apart, every other one turned by half a step, touch and do not overlap.
func TestQuadsOfAWallNest(t *testing.T) {
	c := picture.Equal(recipe(t, "2x11@10"), 2)
	balloons := picture.Wall(c, cluster.StandardPush(), 2, 2.0731*254)
	nearest := math.Inf(1)
	for _, a := range balloons[:4] {
		for _, b := range balloons[4:] {
			nearest = min(nearest, apart(a, b))
		}
	}
	assert.InEpsilon(t, 254, nearest, 0.01)
}
