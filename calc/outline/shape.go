package outline

import (
	"fmt"
	"math"
)

// Kind names a line.
type Kind string

// These are the lines that a [Shape] may be.
const (
	Line     Kind = "line"
	Arc      Kind = "arc"
	Arch     Kind = "arch"
	Catenary Kind = "catenary"
	Hoop     Kind = "hoop"
	Ellipse  Kind = "ellipse"
	Parabola Kind = "parabola"
	Curve    Kind = "curve"
)

// Kinds returns all kinds of line, in the order to offer them.
func Kinds() []Kind {
	return []Kind{Line, Arc, Arch, Catenary, Hoop, Ellipse, Parabola, Curve}
}

// Shape is a line with its measures in millimetres. Each kind uses only its own:
//
//	line      LengthMM
//	arc       WidthMM, HeightMM   circular, over a chord
//	arch      WidthMM, HeightMM   legs with a half circle, or half an ellipse
//	catenary  SpanMM, SagMM       hanging
//	hoop      DiameterMM, Part, StartDeg
//	ellipse   WidthMM, HeightMM, Part
//	parabola  SpanMM, RiseMM
//	curve     Points
//
// A Part of 0 means the whole ring. A part is a share of the perimeter, from the lowest point up the left side.
// StartDeg moves the start of a part of a hoop: degrees clockwise from the lowest point.
type Shape struct {
	Kind       Kind    `json:"kind"`
	LengthMM   float64 `json:"length_mm,omitempty"`
	WidthMM    float64 `json:"width_mm,omitempty"`
	HeightMM   float64 `json:"height_mm,omitempty"`
	SpanMM     float64 `json:"span_mm,omitempty"`
	SagMM      float64 `json:"sag_mm,omitempty"`
	RiseMM     float64 `json:"rise_mm,omitempty"`
	DiameterMM float64 `json:"diameter_mm,omitempty"`
	Part       float64 `json:"part,omitempty"`
	StartDeg   float64 `json:"start_deg,omitempty"`
	Points     []Point `json:"points,omitempty"`
}

// Length returns the length of the shape's line in millimetres, from the function of its kind.
func Length(s Shape) (float64, error) {
	switch s.Kind {
	case Line:
		return LineMM(s.LengthMM)
	case Arc:
		return ArcMM(s.WidthMM, s.HeightMM)
	case Arch:
		return ArchMM(s.WidthMM, s.HeightMM)
	case Catenary:
		return CatenaryMM(s.SpanMM, s.SagMM)
	case Hoop:
		return HoopMM(s.DiameterMM, s.part())
	case Ellipse:
		return EllipseMM(s.WidthMM, s.HeightMM, s.part())
	case Parabola:
		return ParabolaMM(s.SpanMM, s.RiseMM)
	case Curve:
		return CurveMM(s.Points)
	}
	return 0, fmt.Errorf("shape %q: %w, one of %v", s.Kind, ErrUnknownShape, Kinds())
}

func (s Shape) part() float64 {
	if s.Part == 0 {
		return 1
	}
	return s.Part
}

// Points returns n points (2 to [MostPoints]) along the shape's line from its start, left or lowest, to its end,
// equally far apart along the line. On a closed line the last point equals the first. Lines lie on XMM >= 0 with the
// lowest point at YMM = 0, except a curve, which stays where its points are, and an arc longer than a semicircle, which
// extends past its chord on both sides.
func Points(s Shape, n int) ([]Point, error) {
	if n < 2 {
		return nil, fmt.Errorf("%d points to draw: %w, at least 2", n, ErrTooFewPoints)
	}
	if n > MostPoints {
		return nil, fmt.Errorf("%d points to draw: %w, at most %d", n, ErrTooMany, MostPoints)
	}
	if _, err := Length(s); err != nil {
		return nil, err
	}
	if math.IsNaN(s.StartDeg) || math.IsInf(s.StartDeg, 0) {
		return nil, fmt.Errorf("start of a hoop at %g degrees: %w", s.StartDeg, ErrNotANumber)
	}
	line, err := s.path()
	if err != nil {
		return nil, err
	}
	if s.Kind == Ellipse {
		return line.places(n, s.part()), nil
	}
	return line.places(n, 1), nil
}

// path builds the shape's path. Its measures have been checked.
func (s Shape) path() (path, error) {
	switch s.Kind {
	case Line:
		return one(straight{Point{}, Point{s.LengthMM, 0}}), nil
	case Arc:
		return one(arcTrack(s.WidthMM, s.HeightMM)), nil
	case Arch:
		return archPath(s.WidthMM, s.HeightMM), nil
	case Catenary:
		return one(swagTrack(s.SpanMM, s.SagMM)), nil
	case Hoop:
		start := -math.Pi/2 - math.Mod(s.StartDeg, 360)*math.Pi/180
		radius := s.DiameterMM / 2
		return one(round{Point{radius, radius}, radius, radius, start, start - float64(2*math.Pi*s.part())}), nil
	case Ellipse:
		halfX, halfY := s.WidthMM/2, s.HeightMM/2
		return one(round{Point{halfX, halfY}, halfX, halfY, -math.Pi / 2, -math.Pi/2 - 2*math.Pi}), nil
	case Parabola:
		return one(bow{s.SpanMM, s.RiseMM, 0}), nil
	}
	return curvePath(s.Points)
}

func one(t track) path { return path{newPiece(t)} }

func arcTrack(widthMM, heightMM float64) track {
	t := 2 * heightMM / widthMM
	// For a flatter arc the centre is too far away to compute points from it. The parabola is the same line to far
	// below a millimetre.
	if t < 1e-4 {
		return bow{widthMM, heightMM, 0}
	}
	radius := widthMM * (1 + float64(t*t)) / (4 * t)
	half := 2 * math.Atan(t)
	return round{Point{widthMM / 2, heightMM - radius}, radius, radius, math.Pi/2 + half, math.Pi/2 - half}
}

func archPath(widthMM, heightMM float64) path {
	radius := widthMM / 2
	if ArchTopOf(widthMM, heightMM) == HalfEllipse {
		return one(round{Point{radius, 0}, radius, heightMM, math.Pi, 0})
	}
	legMM := heightMM - radius
	top := newPiece(round{Point{radius, legMM}, radius, radius, math.Pi, 0})
	if legMM <= 0 {
		return path{top}
	}
	return path{
		newPiece(straight{Point{}, Point{0, legMM}}),
		top,
		newPiece(straight{Point{widthMM, legMM}, Point{widthMM, 0}}),
	}
}

func swagTrack(spanMM, sagMM float64) track {
	u := catenaryFromSag(spanMM, sagMM)
	if u < 1e-9 {
		return straight{Point{}, Point{spanMM, 0}}
	}
	return swag{spanMM / 2, spanMM / (2 * u), spanMM * sinhOver(u) / 2}
}
