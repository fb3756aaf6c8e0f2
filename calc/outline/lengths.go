package outline

import (
	"fmt"
	"math"
)

// LineMM returns the length of a straight line, after checking it.
func LineMM(lengthMM float64) (float64, error) {
	if err := checkBetween("length", lengthMM, SmallestMM); err != nil {
		return 0, err
	}
	return lengthMM, nil
}

// ArcMM returns the length of the circular arc over a chord of widthMM that rises heightMM above it at the middle. A
// height of 0 gives the chord itself, half the width a semicircle, and more than that a longer arc.
//
// With t = 2 height / width the radius is width (1 + t²) / (4 t) and the arc's
// angle 4 atan t, so the length is width (1 + t²) atan(t) / t.
func ArcMM(widthMM, heightMM float64) (float64, error) {
	if err := checkSpanAndRise("width", widthMM, "height", heightMM); err != nil {
		return 0, err
	}
	t := 2 * heightMM / widthMM
	if t == 0 {
		return widthMM, nil
	}
	return widthMM * (1 + float64(t*t)) * (math.Atan(t) / t), nil
}

// ArchTop is the shape of the top of an arch.
type ArchTop string

// An arch at least half as high as wide has a half circle on two straight legs. A lower arch is half an ellipse that
// starts at the floor.
const (
	HalfCircle  ArchTop = "half circle"
	HalfEllipse ArchTop = "half ellipse"
)

// ArchTopOf returns the top of an arch of the given measures, see [ArchMM].
func ArchTopOf(widthMM, heightMM float64) ArchTop {
	if float64(2*heightMM) >= widthMM {
		return HalfCircle
	}
	return HalfEllipse
}

// ArchMM returns the length of an arch from floor to floor, widthMM between its feet and heightMM to the top, both
// along the centre line. If the height is at least half the width, it has two straight legs of height - width/2 and a
// half circle on top. A lower arch is the upper half of an ellipse, without legs. Both give the same length at height =
// width/2.
func ArchMM(widthMM, heightMM float64) (float64, error) {
	if err := checkSpanAndRise("width", widthMM, "height", heightMM); err != nil {
		return 0, err
	}
	if err := checkBetween("height", heightMM, SmallestMM); err != nil {
		return 0, err
	}
	if ArchTopOf(widthMM, heightMM) == HalfCircle {
		legMM := heightMM - widthMM/2
		return float64(2*legMM) + float64(math.Pi*widthMM/2), nil
	}
	return ellipsePerimeter(widthMM/2, heightMM) / 2, nil
}

// HoopMM returns the length of a part (above 0, up to 1 for the whole ring) of a hoop of the given diameter, measured
// on the line that the clusters follow.
func HoopMM(diameterMM, part float64) (float64, error) {
	if err := checkBetween("diameter", diameterMM, SmallestMM); err != nil {
		return 0, err
	}
	if err := checkPart(part); err != nil {
		return 0, err
	}
	return math.Pi * diameterMM * part, nil
}

func checkPart(part float64) error {
	if !(part > 0 && part <= 1) {
		return fmt.Errorf("part %g of a ring: %w, more than 0 and at most 1 for the whole ring", part, ErrPart)
	}
	return nil
}

// EllipseMM returns the length of a part (above 0, up to 1 for the whole perimeter) of an ellipse of the given outer
// measures, exact by the complete elliptic integral of the second kind. A part is a share of the perimeter, not of the
// angle.
func EllipseMM(widthMM, heightMM, part float64) (float64, error) {
	if err := checkBetween("width", widthMM, SmallestMM); err != nil {
		return 0, err
	}
	if err := checkBetween("height", heightMM, SmallestMM); err != nil {
		return 0, err
	}
	if err := checkPart(part); err != nil {
		return 0, err
	}
	return ellipsePerimeter(widthMM/2, heightMM/2) * part, nil
}

// ParabolaMM returns the length of a parabola over spanMM that rises (or sags) riseMM at the middle: half of span times
// (sqrt(1+x²) + asinh(x)/x) with x = 4 rise / span. A rise of 0 is a straight line.
func ParabolaMM(spanMM, riseMM float64) (float64, error) {
	if err := checkSpanAndRise("span", spanMM, "rise", riseMM); err != nil {
		return 0, err
	}
	x := 4 * riseMM / spanMM
	if x == 0 {
		return spanMM, nil
	}
	return spanMM / 2 * (math.Hypot(1, x) + math.Asinh(x)/x), nil
}
