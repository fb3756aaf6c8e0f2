package softsphere_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/softsphere"
)

// lineOf returns balls of diameter 1 in a straight line, evenly spread over a length, in a slanting direction.
func lineOf(balls int, length float64) (r softsphere.Rest) {
	for i := range balls {
		at := length * (float64(i)/float64(balls-1) - 0.5)
		r.Balloons = append(r.Balloons, softsphere.Balloon{X: 0.6 * at, Y: 0.64 * at, Z: 0.48 * at, Radius: 0.5})
	}
	return r
}

// TestSeenIsAQuarterOfTheSurface checks what is seen by Cauchy's formula: the mean silhouette of a convex body is a
// quarter of its surface (Cauchy 1841; MathWorld, Cauchy's Surface Area Formula), for a ball and for rods with round
// ends.
func TestSeenIsAQuarterOfTheSurface(t *testing.T) {
	one := softsphere.Rest{Balloons: []softsphere.Balloon{{Radius: 0.5}}}
	assert.InEpsilon(t, 1, one.SeenMM(), 0.005)
	for _, length := range []float64{0.5, 1, 3} {
		surface := math.Pi + math.Pi*length
		want := math.Sqrt(surface / 4 * 4 / math.Pi)
		assert.InEpsilon(t, want, lineOf(200, length).SeenMM(), 0.006, "a rod of %g", length)
	}
}

// TestOneDupletSeen checks two touching balls: from the angle a to their axis their discs' centres are sin a apart, and
// overlap in a lens (MathWorld, Circle-Circle Intersection). Averaging over the sphere is integrating over cos a.
func TestOneDupletSeen(t *testing.T) {
	const steps = 10000
	mean := 0.0
	for i := range steps {
		cos := (float64(i) + 0.5) / steps
		apart := math.Sqrt(1 - cos*cos)
		lens := 0.5*math.Acos(apart) - apart/2*math.Sqrt(1-apart*apart)
		mean += (math.Pi/2 - lens) / steps
	}
	want := math.Sqrt(mean * 4 / math.Pi)
	duplet := lineOf(2, 1)
	assert.InEpsilon(t, want, duplet.SeenMM(), 0.005)
	assert.InDelta(t, 2, duplet.BallMM(), 2e-3)
	free, err := softsphere.Free(alike(2, 1))
	require.NoError(t, err)
	assert.InEpsilon(t, want, free.SeenMM(), 0.005)
}

// TestBallsOfClosedForm checks the sphere that holds some touching balls of diameter 1 against solid geometry: its
// diameter is 1 and the diameter of the sphere through their centres.
func TestBallsOfClosedForm(t *testing.T) {
	for _, c := range []struct {
		name    string
		centres [][3]float64
		want    float64
	}{
		{"tetrahedron", [][3]float64{{1, 1, 1}, {1, -1, -1}, {-1, 1, -1}, {-1, -1, 1}}, 1 + math.Sqrt(1.5)},
		{"octahedron", [][3]float64{{1, 0, 0}, {-1, 0, 0}, {0, 1, 0}, {0, -1, 0}, {0, 0, 1}, {0, 0, -1}},
			1 + math.Sqrt2},
		{"three, aside", [][3]float64{{0, 0, 5}, {1, 0, 5}, {0.5, math.Sqrt(3) / 2, 5}}, 1 + 2/math.Sqrt(3)},
	} {
		edge := math.Inf(1)
		for i, a := range c.centres {
			for _, b := range c.centres[:i] {
				edge = min(edge, long(a[0]-b[0], a[1]-b[1], a[2]-b[2]))
			}
		}
		var r softsphere.Rest
		for _, a := range c.centres {
			r.Balloons = append(r.Balloons, softsphere.Balloon{X: a[0] / edge, Y: a[1] / edge, Z: a[2] / edge,
				Radius: 0.5})
		}
		assert.InEpsilon(t, c.want, r.BallMM(), 0.002, c.name)
	}
	// A small ball that touches the sphere of two large ones from within does not matter.
	r := lineOf(2, 1)
	r.Balloons = append(r.Balloons, softsphere.Balloon{X: 0, Y: 0.3, Z: -0.4, Radius: 0.4})
	assert.InDelta(t, 2, r.BallMM(), 2e-3)
	assert.Zero(t, softsphere.Rest{}.BallMM())
	assert.Zero(t, softsphere.Rest{}.SeenMM())
}
