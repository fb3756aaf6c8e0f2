package outline_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"garlandry/calc/outline"
)

func ExampleCurveMM() {
	// Up the side of a bookcase, over it and half way down again.
	length, err := outline.CurveMM([]outline.Point{{0, 0}, {100, 1500}, {900, 2100}, {1700, 1200}})
	fmt.Printf("%.0f mm %v\n", length, err)
	// Output: 3828 mm <nil>
}

func TestCurveCases(t *testing.T) {
	for _, row := range []struct {
		name       string
		points     []outline.Point
		want, near float64
	}{
		{"two points", []outline.Point{{0, 0}, {30, 40}}, 50, 1e-9},
		{"points in a row, unevenly spaced", []outline.Point{{0, 0}, {1, 1}, {100, 100}, {103, 103}, {500, 500}},
			500 * math.Sqrt2, 1e-6},
		{"there and back", []outline.Point{{0, 0}, {1000, 0}, {0, 0}}, 2000, 1},
		{"repeated points count once", []outline.Point{{0, 0}, {0, 0}, {30, 40}, {30, 40}}, 50, 1e-9},
		{"a circle through 24 points, closed", circle(24, 1000), 2 * math.Pi * 1000, 0.6},
		{"a circle through 96 points, closed", circle(96, 1000), 2 * math.Pi * 1000, 0.003},
	} {
		t.Run(row.name, func(t *testing.T) {
			length, err := outline.CurveMM(row.points)
			require.NoError(t, err)
			assert.InDelta(t, row.want, length, row.near)
		})
	}
}

func circle(corners int, radius float64) []outline.Point {
	points := make([]outline.Point, 0, corners+1)
	for i := range corners {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(corners))
		points = append(points, outline.Point{XMM: radius * cos, YMM: radius * sin})
	}
	return append(points, points[0])
}

func TestCurveLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		points := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) outline.Point {
			return outline.Point{
				XMM: rapid.Float64Range(-5000, 5000).Draw(t, "x"),
				YMM: rapid.Float64Range(0, 4000).Draw(t, "y"),
			}
		}), 2, 12).Draw(t, "points")
		length, err := outline.CurveMM(points)
		if err != nil {
			require.ErrorIs(t, err, outline.ErrTooFewPoints)
			return
		}
		chords := 0.0
		for i := 1; i < len(points); i++ {
			chords += apart(points[i-1], points[i])
		}
		assert.GreaterOrEqual(t, length, chords*(1-1e-7), "the curve cannot be shorter than its chords")
		// Hermite tangents here are at most about twice the chord, so no piece is longer than three chords.
		assert.LessOrEqual(t, length, 3*chords+1e-6, "the curve must have no loops")

		mirrored := make([]outline.Point, len(points))
		for i, point := range points {
			mirrored[len(points)-1-i] = outline.Point{XMM: -point.XMM, YMM: point.YMM}
		}
		back, err := outline.CurveMM(mirrored)
		require.NoError(t, err)
		assert.InEpsilon(t, length, back, 1e-7, "backwards and mirrored, the length must be the same")
	})
}

// TestClosedCurveHasNoStart checks that the length of a closed curve does not depend on its first corner.
func TestClosedCurveHasNoStart(t *testing.T) {
	corners := []outline.Point{{0, 0}, {2000, 100}, {2500, 1500}, {900, 2200}, {-200, 1000}}
	want, err := outline.CurveMM(append(corners[:len(corners):len(corners)], corners[0]))
	require.NoError(t, err)
	for start := 1; start < len(corners); start++ {
		turned := append(append([]outline.Point{}, corners[start:]...), corners[:start]...)
		length, err := outline.CurveMM(append(turned, turned[0]))
		require.NoError(t, err)
		assert.InDelta(t, want, length, 1e-6, "from corner %d", start)
	}
}

func apart(a, b outline.Point) float64 { return math.Hypot(a.XMM-b.XMM, a.YMM-b.YMM) }
