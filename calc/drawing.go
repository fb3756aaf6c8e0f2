package calc

// ShapeKind is the kind of a Shape.
type ShapeKind string

// These are the shapes of a Drawing and the fields they use.
const (
	ShapeCircle    ShapeKind = "circle"    // Points[0], RadiusMM
	ShapeLine      ShapeKind = "line"      // Points, joined in order
	ShapeArea      ShapeKind = "area"      // Points, joined and closed
	ShapeArrow     ShapeKind = "arrow"     // Points[0] to the tip Points[1]; Text beside it
	ShapeText      ShapeKind = "text"      // Text centred on Points[0]
	ShapeDimension ShapeKind = "dimension" // Points[0] to Points[1] with end marks; Text at the middle
)

// Role is the meaning of a shape. A page colours it by this.
type Role string

// Roles of shapes.
const (
	RoleBalloon Role = "balloon" // a balloon of the base
	RoleAccent  Role = "accent"  // a balloon of an accent
	RoleGhost   Role = "ghost"   // the same thing at another time, drawn faintly
	RoleGuide   Role = "guide"   // the string, a centre line, a wished line
	RoleFrame   Role = "frame"   // bar, upright, line, hook
	RoleLoad    Role = "load"    // what hangs or weighs
	RoleWind    Role = "wind"    // wind or a push
	RoleGround  Role = "ground"  // floor or ceiling
	RoleBox     Role = "box"     // the inside of a car, a bag
	RoleMeasure Role = "measure" // dimensions and words
)

// Dot is a point of a drawing: millimetres from its left and top edges.
type Dot struct{ XMM, YMM float64 }

// Shape is one element of a drawing.
type Shape struct {
	Kind     ShapeKind
	Role     Role
	Points   []Dot
	RadiusMM float64
	Text     string
}

// Drawing is plain geometry to scale, in millimetres of the real object, x to the right and y down as on a screen.
// Everything is within 0..WidthMM, 0..HeightMM with a margin for labels. Shapes are in painting order.
type Drawing struct {
	WidthMM, HeightMM float64
	Shapes            []Shape
	// Title says what is shown, for screen readers.
	Title string
	// Note says what is not to scale, such as an exaggerated dip, or is empty.
	Note string
}
