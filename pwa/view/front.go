package view

import (
	"math"
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/plan/look"
	"garlandry/calc/measure"
)

// How many balloons a picture draws at most, by its size on the screen.
const (
	inThumbnail = 46
	inRow       = 60
	onPaper     = 150
	onCard      = 250
	onCover     = 400
	onSheet     = 1200
)

// linesInThumbnail is how many poles or ribbons a thumbnail has at most.
const linesInThumbnail = 12

// Front draws a look from the front, to scale.
type Front struct {
	Look  *look.Look
	Small bool   // a thumbnail, with coarse coordinates and as few bytes as there can be
	Label string // for screen readers; empty where the words beside it say the same

	// How far the base and each layer on it are. Without progress all is drawn as built.
	Progress bool
	Layers   []LayerDone

	Person bool // a person stands beside it
	Bar    bool // a bar below says how long it is
	Units  measure.System

	numbers numbering // in black, with the numbers of the colours; nil: in colour

	flat bool // without shades, which a page of many jobs would have to define

	// Form is the id of the form that shows the cluster of a tapped balloon of a layer; "" for none. Picked is the
	// cluster of that layer that it shows, from 1; it is drawn before the others, with the balloons of Whole.
	Form   string
	Layer  int
	Picked int
	Whole  *look.Look

	says bool // each circle says its size, colour and cluster
}

// LayerDone is how far the base of a piece is, or a layer on it.
type LayerDone struct {
	Made []bool // which clusters are made
	Up   int    // how many of them are put up, the first ones
}

// frontUnits is the longer side of a picture in its own units, so that coordinates are short and yet finer than a
// screen's points.
const (
	frontUnits = 1000.0
	smallUnits = 200.0 // of a thumbnail
)

// personMM is the height of the person beside a picture.
const personMM = 1700.0

// Draw returns the picture; nothing for a look without balloons.
func (v Front) Draw() g.Node {
	if v.Look == nil || len(v.Look.Balloons) == 0 {
		return nil
	}
	units := frontUnits
	if v.Small {
		units = smallUnits
	}
	says := g.Node(decorative())
	if v.Label != "" {
		says = g.Group{h.Role("img"), h.Aria("label", v.Label)}
	}
	class := "front"
	if v.numbers != nil {
		class += " numbered"
	}
	return h.SVG(h.Class(class), g.If(v.Form != "", h.Data("clusters", v.Form)), v.inside(v.Look, units), says)
}

// Thumbnail draws a look small, for a list whose words say the same.
func Thumbnail(l *look.Look) g.Node {
	return h.Span(h.Class("thumbnail"), Front{Look: l, Small: true}.Draw())
}

// File returns the picture as a file of its own, so many pixels wide. Each circle says the nominal size of its balloon
// in inches, the colour's name and the number of its cluster from 1: "5", in the second layer "l2-5", of accents "a5".
func (v Front) File(widthPX int) g.Node {
	v.says = true
	return h.SVG(g.Attr("xmlns", "http://www.w3.org/2000/svg"), h.Width(strconv.Itoa(widthPX)), h.Role("img"),
		h.Aria("label", v.Label), v.inside(v.Look, 10*frontUnits),
		g.El("style", g.Raw(".person{fill:#b9b0a4;stroke:#b9b0a4;stroke-linejoin:round}"+
			".ground,.rod,.box{stroke:#8a8178;fill:none}.box{stroke-width:12}.before{fill:#f4efe8}"+
			"circle[data-size]{stroke:#1c1916;stroke-opacity:.3;stroke-width:10}")),
		shades(v.Look.Colours...))
}

// inside draws what the picture holds.
func (v *Front) inside(l *look.Look, units float64) g.Node {
	f := frontOf(l, v.Person, v.Bar, units)
	return g.Group{
		g.Attr("viewBox", "0 0 "+f.n(f.wide)+" "+f.n(f.high)),
		g.If(l.Stands, g.El("path", h.Class("ground"), g.Attr("d", "M0 "+f.y(0)+"H"+f.n(f.wide)))),
		g.If(v.Person, f.person()),
		g.Iff(v.Bar, func() g.Node { return f.bar(v.Units) }),
		v.at(&f, l),
	}
}

// at draws the balloons and lines of a look where f puts them.
func (v *Front) at(f *front, l *look.Look) g.Node {
	var groups [3]g.Group // by state, each from back to front
	for i := range l.Balloons {
		b := &l.Balloons[i]
		as := v.state(b)
		groups[as] = append(groups[as], v.balloon(f, l, b))
	}
	return g.Group{
		f.boxes(l, false),
		g.Map(v.lines(l), func(line look.Line) g.Node { return f.line(line, v.flat) }),
		ofState("yet", groups[isToDo]),
		ofState("made", groups[isMade]),
		groups[isBuilt],
		v.picked(f),
		f.boxes(l, true),
	}
}

// lines returns the lines to draw: all of them, or some from all over a thumbnail.
func (v *Front) lines(l *look.Look) []look.Line {
	n := len(l.Lines)
	if !v.Small || n <= linesInThumbnail {
		return l.Lines
	}
	some := make([]look.Line, linesInThumbnail)
	for i := range some {
		some[i] = l.Lines[i*n/linesInThumbnail]
	}
	return some
}

// picked draws the cluster that is shown: all of its balloons, with a rim round them.
func (v *Front) picked(f *front) g.Node {
	if v.Picked == 0 || v.Whole == nil {
		return nil
	}
	var rim, balloons g.Group
	for i := range v.Whole.Balloons {
		b := &v.Whole.Balloons[i]
		if b.Layer == v.Layer && b.Cluster == v.Picked-1 {
			rim = append(rim, disc(f.x(b.XMM), f.y(b.YMM), f.n(b.RadiusMM*f.scale)))
			one := v.balloon(f, v.Whole, b)
			if v.state(b) == isToDo {
				one = g.El("g", h.Class("yet"), one)
			}
			balloons = append(balloons, one)
		}
	}
	return g.Group{ofState("rim", rim), balloons}
}

// boxes draws what stands in a room before the pieces, or behind them.
func (f *front) boxes(l *look.Look, before bool) (drawn g.Group) {
	if l.Hall != nil {
		for i := range l.Hall.Boxes {
			if b := &l.Hall.Boxes[i]; b.Front == before {
				drawn = append(drawn, f.box(b))
			}
		}
	}
	return drawn
}

// ofState draws balloons of one state, if there are any.
func ofState(class string, balloons g.Group) g.Node {
	return g.If(len(balloons) > 0, g.El("g", h.Class(class), balloons))
}

// front turns millimetres into the units of a picture.
type front struct {
	scale, left, top float64 // left and top edge, mm
	foot             float64 // where a person stands, mm
	wide, high       float64 // units
}

func frontOf(l *look.Look, person, bar bool, units float64) front {
	left, right, bottom, top := l.LeftMM, l.RightMM, l.BottomMM, l.TopMM
	if l.Stands {
		bottom = min(bottom, 0)
	}
	if person {
		left -= 700
		top = max(top, bottom+personMM)
	}
	foot := bottom
	if l.Stands {
		foot = 0
	}
	edge := max(right-left, top-bottom) * 0.02
	left, right, top, bottom = left-edge, right+edge, top+edge, bottom-edge
	if bar {
		bottom -= max(right-left, top-bottom) * barRoom
	}
	scale := units / max(right-left, top-bottom)
	return front{scale: scale, left: left, top: top, foot: foot,
		wide: (right - left) * scale, high: (top - bottom) * scale}
}

func (f *front) n(units float64) string { return strconv.Itoa(int(math.Round(units))) }
func (f *front) x(mm float64) string    { return f.n((mm - f.left) * f.scale) }
func (f *front) y(mm float64) string    { return f.n((f.top - mm) * f.scale) }

// stateOf says how a balloon is drawn.
type stateOf int

const (
	isBuilt stateOf = iota
	isMade          // not put up yet
	isToDo
)

func (v *Front) state(b *look.Balloon) stateOf {
	done, made := LayerDone{}, false
	if b.Layer < len(v.Layers) {
		done = v.Layers[b.Layer]
		made = b.Cluster < len(done.Made) && done.Made[b.Cluster]
	}
	switch {
	case !v.Progress || b.Cluster < done.Up && (made || b.Layer > 0):
		return isBuilt
	case made:
		return isMade
	}
	return isToDo
}

func (v *Front) balloon(f *front, l *look.Look, b *look.Balloon) g.Node {
	if v.numbers != nil {
		return numbered(f.x(b.XMM), f.y(b.YMM), b.RadiusMM*f.scale, v.numbers.of(l.Colours[b.Colour]))
	}
	if v.Small { // as few bytes as there can be
		paint := ""
		switch {
		case v.flat:
			paint = " fill=" + fill(l.Colours[b.Colour].Value)
		case v.state(b) != isToDo:
			paint = " fill=url(#" + shadeID(l.Colours[b.Colour]) + ")"
		}
		return g.Raw("<circle cx=" + f.x(b.XMM) + " cy=" + f.y(b.YMM) + " r=" + f.n(b.RadiusMM*f.scale) + paint + " />")
	}
	var more g.Group
	cluster := strconv.Itoa(b.Cluster + 1)
	if v.says {
		switch {
		case b.Accent:
			cluster = "a" + cluster
		case b.Layer > 0:
			cluster = "l" + strconv.Itoa(b.Layer) + "-" + cluster
		}
		more = g.Group{h.Data("size", strconv.Itoa(b.SizeIn)), h.Data("colour", l.Colours[b.Colour].Name)}
	}
	if v.says || v.Form != "" && b.Layer == v.Layer {
		more = append(more, h.Data("cluster", cluster))
	}
	if v.state(b) != isToDo {
		more = append(more, paint(l.Colours[b.Colour]))
	}
	return g.Group{f.knot(l, b, v.state(b)), disc(f.x(b.XMM), f.y(b.YMM), f.n(b.RadiusMM*f.scale), more)}
}

// line draws a line. A rough one has fewer points, and is left out where it is too thin to see.
func (f *front) line(line look.Line, rough bool) g.Node {
	wide, every := line.ThickMM*f.scale, 2
	if rough {
		if wide < 0.4 {
			return nil
		}
		every *= max(1, len(line.Points)/16)
	}
	return g.Raw(`<path class="rod" d="` + f.path(line.Points, every) + `" stroke-width="` + f.n(max(wide, 1)) + `"/>`)
}

// poly writes a path through points, which are pairs of x and y.
func (f *front) poly(mm ...float64) string { return f.path(mm, 2) }

// path writes a path through the points that begin at every so many numbers of a list of pairs.
func (f *front) path(mm []float64, every int) string {
	var path strings.Builder
	for i := 0; i+1 < len(mm); i += every {
		path.WriteString(f.step(i, mm[i], mm[i+1]))
	}
	return path.String()
}

// person draws a person of [personMM] as a plain shape, left of the piece: on the floor, or under what hangs. The path
// was drawn by hand.
func (f *front) person() g.Node {
	x := f.left + 350
	points := []float64{0, 1460, 140, 1430, 190, 1330, 180, 860, 130, 860, 112, 1180, 100, 20, 30, 20, 0, 740}
	path := ""
	for i := 0; i < len(points); i += 2 {
		path += f.step(i, x+points[i], f.foot+points[i+1])
	}
	for i := len(points) - 4; i >= 2; i -= 2 {
		path += f.step(1, x-points[i], f.foot+points[i+1])
	}
	return g.El("g", h.Class("person"),
		disc(f.x(x), f.y(f.foot+1590), f.n(110*f.scale)),
		g.El("path", g.Attr("d", path+"Z"), g.Attr("stroke-width", f.n(40*f.scale))))
}

// step writes a point of a path; the first one begins it.
func (f *front) step(i int, xMM, yMM float64) string {
	if i == 0 {
		return "M" + f.x(xMM) + " " + f.y(yMM)
	}
	return "L" + f.x(xMM) + " " + f.y(yMM)
}
