package outline_test

import (
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"garlandry/calc/outline"
)

func ExamplePoints() {
	points, err := outline.Points(outline.Shape{Kind: outline.Arch, WidthMM: 2000, HeightMM: 1000}, 5)
	for _, point := range points {
		fmt.Printf("(%.0f, %.0f) ", point.XMM, point.YMM)
	}
	fmt.Println(err)
	// Output: (0, 0) (293, 707) (1000, 1000) (1707, 707) (2000, 0) <nil>
}

// TestPointsLieOnTheMeasuredLine compares two computations: points come from quadrature along a parametric line,
// lengths from closed formulas.
func TestPointsLieOnTheMeasuredLine(t *testing.T) {
	for _, row := range lengthRows {
		t.Run(row.name, func(t *testing.T) {
			const n = 1001
			shape := scaled(row.shape)
			points, err := outline.Points(shape, n)
			require.NoError(t, err)
			require.Len(t, points, n)
			length, err := outline.Length(shape)
			require.NoError(t, err)
			total := 0.0
			for i := 1; i < n; i++ {
				step := apart(points[i-1], points[i])
				total += step
				require.InDelta(t, length/(n-1), step, 1e-4*length/(n-1)+1e-6, "equal steps, point %d", i)
			}
			assert.InEpsilon(t, length, total, 1e-5, "chords add up to the length")
		})
	}
}

func TestPointsStandWhereTheyShould(t *testing.T) {
	for _, row := range []struct {
		name                string
		shape               outline.Shape
		first, middle, last outline.Point
	}{
		{"line", outline.Shape{Kind: outline.Line, LengthMM: 100}, outline.Point{}, outline.Point{50, 0},
			outline.Point{100, 0}},
		{"arc", outline.Shape{Kind: outline.Arc, WidthMM: 100, HeightMM: 20}, outline.Point{}, outline.Point{50, 20},
			outline.Point{100, 0}},
		{"very flat arc", outline.Shape{Kind: outline.Arc, WidthMM: 1e6, HeightMM: 1}, outline.Point{},
			outline.Point{5e5, 1}, outline.Point{1e6, 0}},
		{"tall arch", outline.Shape{Kind: outline.Arch, WidthMM: 100, HeightMM: 300}, outline.Point{},
			outline.Point{50, 300}, outline.Point{100, 0}},
		{"low arch", outline.Shape{Kind: outline.Arch, WidthMM: 100, HeightMM: 30}, outline.Point{}, outline.Point{50, 30},
			outline.Point{100, 0}},
		{"catenary", outline.Shape{Kind: outline.Catenary, SpanMM: 100, SagMM: 30}, outline.Point{0, 30},
			outline.Point{50, 0}, outline.Point{100, 30}},
		{"parabola", outline.Shape{Kind: outline.Parabola, SpanMM: 100, RiseMM: 30}, outline.Point{}, outline.Point{50, 30},
			outline.Point{100, 0}},
		{"half an ellipse", outline.Shape{Kind: outline.Ellipse, WidthMM: 100, HeightMM: 60, Part: 0.5},
			outline.Point{50, 0}, outline.Point{0, 30}, outline.Point{50, 60}},
		{"ellipse", outline.Shape{Kind: outline.Ellipse, WidthMM: 100, HeightMM: 60}, outline.Point{50, 0},
			outline.Point{50, 60}, outline.Point{50, 0}},
		{"hoop", outline.Shape{Kind: outline.Hoop, DiameterMM: 100}, outline.Point{50, 0}, outline.Point{50, 100},
			outline.Point{50, 0}},
		{"half a hoop, up the left side", outline.Shape{Kind: outline.Hoop, DiameterMM: 100, Part: 0.5},
			outline.Point{50, 0}, outline.Point{0, 50}, outline.Point{50, 100}},
		{"half a hoop, over the top", outline.Shape{Kind: outline.Hoop, DiameterMM: 100, Part: 0.5, StartDeg: 90},
			outline.Point{0, 50}, outline.Point{50, 100}, outline.Point{100, 50}},
		{"curve", outline.Shape{Kind: outline.Curve, Points: []outline.Point{{10, 10}, {20, 30}, {30, 10}}},
			outline.Point{10, 10}, outline.Point{20, 30}, outline.Point{30, 10}},
	} {
		t.Run(row.name, func(t *testing.T) {
			points, err := outline.Points(row.shape, 3)
			require.NoError(t, err)
			for i, want := range []outline.Point{row.first, row.middle, row.last} {
				near := 1e-9*row.shape.WidthMM + 1e-5
				assert.InDelta(t, want.XMM, points[i].XMM, near, "point %d", i)
				assert.InDelta(t, want.YMM, points[i].YMM, near, "point %d", i)
			}
		})
	}
}

func TestPointsRefuses(t *testing.T) {
	line := outline.Shape{Kind: outline.Line, LengthMM: 100}
	_, err := outline.Points(line, 1)
	require.ErrorIs(t, err, outline.ErrTooFewPoints)
	_, err = outline.Points(line, outline.MostPoints+1)
	require.ErrorIs(t, err, outline.ErrTooMany)
	_, err = outline.Points(outline.Shape{Kind: outline.Line}, 5)
	require.ErrorIs(t, err, outline.ErrTooSmall)
	_, err = outline.Points(outline.Shape{}, 5)
	require.ErrorIs(t, err, outline.ErrUnknownShape)
	_, err = outline.Points(outline.Shape{Kind: outline.Hoop, DiameterMM: 100, StartDeg: math.NaN()}, 5)
	require.ErrorIs(t, err, outline.ErrNotANumber)
}

func drawShape(t *rapid.T) outline.Shape {
	measure := func(name string) float64 {
		return rapid.OneOf(rapid.Float64Range(1, 20_000), rapid.Float64Range(1, outline.LargestMM)).Draw(t, name)
	}
	return outline.Shape{
		Kind:       rapid.SampledFrom(outline.Kinds()[:7]).Draw(t, "kind"),
		LengthMM:   measure("length"),
		WidthMM:    measure("width"),
		HeightMM:   measure("height"),
		SpanMM:     measure("span"),
		SagMM:      measure("sag"),
		RiseMM:     measure("rise"),
		DiameterMM: measure("diameter"),
		Part:       rapid.Float64Range(0.01, 0.99).Draw(t, "part"),
	}
}

func TestShapeLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shape := drawShape(t)
		length, err := outline.Length(shape)
		require.NoError(t, err)

		half, err := outline.Length(shrunk(shape, 2))
		if err == nil {
			assert.InEpsilon(t, length, 2*half, 1e-12, "half the size must be half as long")
		}
		more := shape
		growth := rapid.Float64Range(0, 1000).Draw(t, "growth")
		more.LengthMM += growth
		more.HeightMM += growth
		more.SagMM += growth
		more.RiseMM += growth
		more.DiameterMM += growth
		longer, err := outline.Length(more)
		if err == nil {
			assert.GreaterOrEqual(t, longer, length*(1-1e-12), "a higher shape cannot be shorter, apart from rounding")
		}

		const n = 201
		points, err := outline.Points(shape, n)
		require.NoError(t, err)
		chords := 0.0
		for i := 1; i < n; i++ {
			chords += apart(points[i-1], points[i])
		}
		assert.LessOrEqual(t, chords, length*(1+1e-9), "chords cannot be longer than the line")
		assert.GreaterOrEqual(t, chords, length*0.98)

		text, err := json.Marshal(shape)
		require.NoError(t, err)
		var read outline.Shape
		require.NoError(t, json.Unmarshal(text, &read))
		assert.Equal(t, shape, read)
	})
}

func shrunk(s outline.Shape, by float64) outline.Shape {
	s.LengthMM /= by
	s.WidthMM /= by
	s.HeightMM /= by
	s.SpanMM /= by
	s.SagMM /= by
	s.RiseMM /= by
	s.DiameterMM /= by
	return s
}

func FuzzShape(f *testing.F) {
	f.Add(2, 2400.0, 2100.0, 1.0, 0.0)
	f.Add(3, 1.0, 1e7, 0.0, 90.0)
	f.Add(5, 1.0, 1e7, 0.5, 1e300)
	f.Fuzz(func(t *testing.T, kind int, a, b, part, start float64) {
		kinds := outline.Kinds()
		shape := outline.Shape{
			Kind: kinds[uint(kind)%uint(len(kinds))], LengthMM: a, WidthMM: a, HeightMM: b, SpanMM: a, SagMM: b, RiseMM: b,
			DiameterMM: a, Part: part, StartDeg: start, Points: []outline.Point{{a, b}, {b, a}, {part, start}, {a, b}},
		}
		length, err := outline.Length(shape)
		if err != nil {
			assert.Zero(t, length)
			return
		}
		assert.Positive(t, length)
		assert.False(t, math.IsNaN(length) || math.IsInf(length, 0))
		points, err := outline.Points(shape, 17)
		if err != nil {
			return
		}
		for _, point := range points {
			assert.False(t, math.IsNaN(point.XMM) || math.IsInf(point.XMM, 0), "%v", points)
			assert.False(t, math.IsNaN(point.YMM) || math.IsInf(point.YMM, 0), "%v", points)
		}
	})
}

func BenchmarkPoints(b *testing.B) {
	for _, kind := range outline.Kinds()[:7] {
		shape := outline.Shape{
			Kind:       kind,
			LengthMM:   5000,
			WidthMM:    2400,
			HeightMM:   2100,
			SpanMM:     3000,
			SagMM:      600,
			RiseMM:     600,
			DiameterMM: 2000,
			Part:       0.6,
		}
		b.Run(string(kind), func(b *testing.B) {
			for b.Loop() {
				if _, err := outline.Points(shape, 100); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkCatenary(b *testing.B) {
	for b.Loop() {
		if _, err := outline.CatenaryMM(3000, 600); err != nil {
			b.Fatal(err)
		}
	}
}
