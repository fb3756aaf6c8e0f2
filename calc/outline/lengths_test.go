package outline_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/outline"
)

func ExampleArchMM() {
	// The arch over the reading room's door: 2.4 m between the feet, 2.1 m high.
	length, err := outline.ArchMM(2400, 2100)
	fmt.Printf("%.0f mm, %s on legs, %v\n", length, outline.ArchTopOf(2400, 2100), err)
	// Output: 5570 mm, half circle on legs, <nil>
}

func ExampleCatenaryMM() {
	// A swag across a 3 m shelf front that hangs 60 cm.
	length, err := outline.CatenaryMM(3000, 600)
	fmt.Printf("%.0f mm %v\n", length, err)
	// Output: 3299 mm <nil>
}

func ExampleHoopMM() {
	// Two thirds of a 2 m hoop.
	length, err := outline.HoopMM(2000, 2.0/3)
	fmt.Printf("%.0f mm %v\n", length, err)
	// Output: 4189 mm <nil>
}

// TestCompleteEllipticMatchesTheTable checks values of the complete elliptic integrals: Abramowitz & Stegun, Table 17.1
// (E(0.5) also in a test suite that cites DLMF 19.6).
func TestCompleteEllipticMatchesTheTable(t *testing.T) {
	for _, row := range []struct{ m, k, e float64 }{
		{0, math.Pi / 2, math.Pi / 2},
		{0.5, 1.8540746773, 1.3506438810},
		{0.75, 2.1565156475, 1.2110560276},
		{0.9, 2.5780921133, 1.1047747327},
	} {
		k, e, err := outline.CompleteElliptic(row.m)
		require.NoError(t, err)
		assert.InDelta(t, row.k, k, 1e-10, "K(%g)", row.m)
		assert.InDelta(t, row.e, e, 1e-10, "E(%g)", row.m)
	}
	k, e, err := outline.CompleteElliptic(1)
	require.NoError(t, err)
	assert.True(t, math.IsInf(k, 1))
	assert.Equal(t, 1.0, e)
	_, e, err = outline.CompleteElliptic(0.50)
	require.NoError(t, err)
	assert.InDelta(t, 1.35064388104767550252, e, 4e-16)
	for _, wrong := range []float64{-0.1, 1.1, math.NaN()} {
		_, _, err := outline.CompleteElliptic(wrong)
		require.ErrorIs(t, err, outline.ErrNotANumber)
	}
}

// scale multiplies the published figures, since lengths are checked in millimetres.
const scale = 1000

type lengthRow struct {
	name       string
	shape      outline.Shape
	want, near float64
}

var lengthRows = []lengthRow{
	{"ellipse with half axes 10 and 5: 4a E(m), perimeter of an ellipse (Wikipedia)",
		outline.Shape{Kind: outline.Ellipse, WidthMM: 20, HeightMM: 10}, 48.442241103, 1e-9},
	{"ellipse with half axes 5 and 3", outline.Shape{Kind: outline.Ellipse, WidthMM: 10, HeightMM: 6}, 25.526998863, 1e-9},
	{"ellipse with half axes 3 and 2, upright", outline.Shape{Kind: outline.Ellipse, WidthMM: 4, HeightMM: 6},
		15.865439589, 1e-9},
	// By symmetry, a E(m).
	{"a quarter of the way round half axes 10 and 5",
		outline.Shape{Kind: outline.Ellipse, WidthMM: 20, HeightMM: 10, Part: 0.25}, 48.442241103 / 4, 1e-9},
	{"circle as ellipse", outline.Shape{Kind: outline.Ellipse, WidthMM: 2, HeightMM: 2}, 2 * math.Pi, 1e-12},
	{"half circle as arc", outline.Shape{Kind: outline.Arc, WidthMM: 2, HeightMM: 1}, math.Pi, 1e-12},
	{"two thirds of a circle of radius 2 as arc over a chord of 2 sqrt 3, 3 high",
		outline.Shape{Kind: outline.Arc, WidthMM: 2 * math.Sqrt(3), HeightMM: 3}, 8 * math.Pi / 3, 1e-12},
	{"a sixth of a circle of radius 1 over its side",
		outline.Shape{Kind: outline.Arc, WidthMM: 1, HeightMM: 1 - math.Sqrt(3)/2}, math.Pi / 3, 1e-12},
	{"half circle as arch", outline.Shape{Kind: outline.Arch, WidthMM: 2, HeightMM: 1}, math.Pi, 1e-12},
	{"half circle on legs of 3", outline.Shape{Kind: outline.Arch, WidthMM: 2, HeightMM: 4}, math.Pi + 6, 1e-12},
	{"low arch, half of the ellipse 10 and 5", outline.Shape{Kind: outline.Arch, WidthMM: 20, HeightMM: 5},
		48.442241103 / 2, 1e-9},
	{"parabola, span 10, sag 3 (CRC formula, from memory)", outline.Shape{Kind: outline.Parabola, SpanMM: 10, RiseMM: 3},
		12.043471, 1e-6},
	{"parabola, span 2, rise 1: twice y = x² from 0 to 1, 1.479 in Stewart, Calculus, 8.1 (from memory)",
		outline.Shape{Kind: outline.Parabola, SpanMM: 2, RiseMM: 1}, 2 * 1.478942858, 2e-9},
	{"catenary, span 10, sag 3", outline.Shape{Kind: outline.Catenary, SpanMM: 10, SagMM: 3}, 12.094102, 1e-6},
	{"catenary of parameter 1 over 2: 2 sinh 1",
		outline.Shape{Kind: outline.Catenary, SpanMM: 2, SagMM: math.Cosh(1) - 1}, 2 * math.Sinh(1), 1e-12},
	{"hoop", outline.Shape{Kind: outline.Hoop, DiameterMM: 1}, math.Pi, 1e-12},
	{"quarter of a hoop", outline.Shape{Kind: outline.Hoop, DiameterMM: 4, Part: 0.25}, math.Pi, 1e-12},
	{"line", outline.Shape{Kind: outline.Line, LengthMM: 7}, 7, 0},
	{"flat arc", outline.Shape{Kind: outline.Arc, WidthMM: 7}, 7, 0},
	{"flat parabola", outline.Shape{Kind: outline.Parabola, SpanMM: 7}, 7, 0},
	{"taut catenary", outline.Shape{Kind: outline.Catenary, SpanMM: 7}, 7, 0},
}

func scaled(s outline.Shape) outline.Shape {
	s.LengthMM *= scale
	s.WidthMM *= scale
	s.HeightMM *= scale
	s.SpanMM *= scale
	s.SagMM *= scale
	s.RiseMM *= scale
	s.DiameterMM *= scale
	return s
}

func TestLengthsMatchPublishedValues(t *testing.T) {
	for _, row := range lengthRows {
		t.Run(row.name, func(t *testing.T) {
			length, err := outline.Length(scaled(row.shape))
			require.NoError(t, err)
			assert.InDelta(t, row.want, length/scale, row.near)
		})
	}
}

// TestCurveFollowsTheGatewayArch uses the centre line of the Gateway Arch in feet, as the US National Park Service
// published it (quoted by Rose-Hulman, problem ARCH_3): y = 625.0925 - 68.7672 (cosh(3.0022 x/299.2239) - 1). It is a
// flattened catenary, so the test follows it as a free curve. Its length is 2 x 740.141 ft by the integral (1480.28
// ft).
func TestCurveFollowsTheGatewayArch(t *testing.T) {
	const half, feet = 299.2239, 304.8
	points := make([]outline.Point, 0, 121)
	for i := -60; i <= 60; i++ {
		x := half * float64(i) / 60
		y := 693.8597 - 68.7672*math.Cosh(0.0100333*x)
		points = append(points, outline.Point{XMM: x * feet, YMM: y * feet})
	}
	assert.InDelta(t, 625.0925, points[60].YMM/feet, 1e-9, "height")
	length, err := outline.CurveMM(points)
	require.NoError(t, err)
	assert.InDelta(t, 1480.28, length/feet, 0.01)
}

// TestCatenaryHasItsParameter checks that span 10 with sag 3 has the parameter a = 4.594471, so the length is 2a
// sinh(10/2a).
func TestCatenaryHasItsParameter(t *testing.T) {
	length, err := outline.CatenaryMM(10*scale, 3*scale)
	require.NoError(t, err)
	assert.InDelta(t, 2*4.594471*math.Sinh(5/4.594471), length/scale, 1e-6)
}

func TestImpossibleMeasuresAreNamed(t *testing.T) {
	nan, without := math.NaN(), math.Inf(1)
	for _, row := range []struct {
		name   string
		length func() (float64, error)
		wrong  error
		says   string
	}{
		{"no length", func() (float64, error) { return outline.LineMM(0) }, outline.ErrTooSmall, "length"},
		{"negative width", func() (float64, error) { return outline.ArcMM(-5, 1) }, outline.ErrTooSmall, "width"},
		{"negative height", func() (float64, error) { return outline.ArcMM(5, -1) }, outline.ErrTooSmall, "height"},
		{"arch without height", func() (float64, error) { return outline.ArchMM(500, 0) }, outline.ErrTooSmall, "height"},
		{"too wide", func() (float64, error) { return outline.ArchMM(2e7, 500) }, outline.ErrTooLarge, "width"},
		{"endless sag", func() (float64, error) { return outline.CatenaryMM(500, without) }, outline.ErrNotANumber, "sag"},
		{"span not a number", func() (float64, error) { return outline.ParabolaMM(nan, 1) }, outline.ErrNotANumber, "span"},
		{"flat ellipse", func() (float64, error) { return outline.EllipseMM(500, 0, 1) }, outline.ErrTooSmall, "height"},
		{"hoop without diameter", func() (float64, error) { return outline.HoopMM(0, 1) }, outline.ErrTooSmall, "diameter"},
		{"no part of a hoop", func() (float64, error) { return outline.HoopMM(500, 0) }, outline.ErrPart, "part"},
		{"more than a hoop", func() (float64, error) { return outline.HoopMM(500, 1.01) }, outline.ErrPart, "part"},
		{"part not a number", func() (float64, error) { return outline.HoopMM(500, nan) }, outline.ErrPart, "part"},
		{"no points", func() (float64, error) { return outline.CurveMM(nil) }, outline.ErrTooFewPoints, "at least 2"},
		{"one point twice", func() (float64, error) { return outline.CurveMM(make([]outline.Point, 2)) },
			outline.ErrTooFewPoints, "at least 2"},
		{"far away", func() (float64, error) { return outline.CurveMM([]outline.Point{{}, {-2e7, 0}}) },
			outline.ErrTooLarge, "point 2"},
		{"too many points", func() (float64, error) { return outline.CurveMM(make([]outline.Point, 10_001)) },
			outline.ErrTooMany, "10001"},
		{"unknown", func() (float64, error) { return outline.Length(outline.Shape{Kind: "heart"}) },
			outline.ErrUnknownShape, "heart"},
	} {
		t.Run(row.name, func(t *testing.T) {
			length, err := row.length()
			require.ErrorIs(t, err, row.wrong)
			assert.ErrorContains(t, err, row.says)
			assert.Zero(t, length)
		})
	}
}
