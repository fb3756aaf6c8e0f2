package view

import (
	"math"
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan/look"
	"garlandry/calc/measure"
)

// roomHighPX is how high the picture of a room is at least, in pixels of the page: a long one is scrolled on a phone.
const roomHighPX = 190

// belowFloor is how much of the picture the scale takes below the floor, in its units.
const belowFloor = 50

// fitRoom fits a room into a picture, with its walls and its ceiling.
func fitRoom(room *look.Look) front {
	seen := *room
	seen.LeftMM, seen.RightMM = min(seen.LeftMM, 0), max(seen.RightMM, seen.Hall.WidthMM)
	seen.TopMM = max(seen.TopMM, seen.Hall.HeightMM)
	return frontOf(&seen, false, false, frontUnits)
}

// drawRoom draws a room with a scale. Each piece and box is a group of its own, which those who edit can move.
func (f *front) drawRoom(room *look.Look, page Frame) g.Node {
	things, plain := make([]g.Group, len(room.Items)), &Front{}
	for _, line := range room.Lines {
		things[line.Piece] = append(things[line.Piece], f.line(line, false))
	}
	for i := range room.Balloons {
		b := &room.Balloons[i]
		things[b.Piece] = append(things[b.Piece], plain.balloon(f, room, b))
	}
	var layers [3]g.Group // behind the pieces, the pieces, before them
	label, role, high := "The room from the front, to scale", "group", f.high+belowFloor
	for i := range room.Items {
		item, layer := &room.Items[i], 1
		if box := i - len(room.Items) + len(room.Hall.Boxes); box >= 0 {
			b := &room.Hall.Boxes[box]
			if layer = 0; b.Front {
				layer = 2
			}
			things[i] = g.Group{f.box(b), f.word(item.MiddleMM(), item.TopMM+6/f.scale, item.Name)}
		}
		if page.Edits() {
			things[i] = append(things[i], held(item, page.Units))
		} else {
			role = "img"
			label += "; " + ItemWords(item, page.Units)
		}
		layers[layer] = append(layers[layer], g.El("g", things[i]))
	}
	return h.SVG(h.Class("room"), h.ID("room"), g.Attr("viewBox", "0 0 "+f.n(f.wide)+" "+f.n(high)),
		h.Width(f.n(roomHighPX*f.wide/high)), h.Role(role), h.Aria("label", label),
		f.walls(room.Hall), g.Group(layers[0]), g.Group(layers[1]), g.Group(layers[2]), f.ruler(page.Units))
}

// held makes a group one that can be moved. It says where the thing stood when it was drawn.
func held(item *look.Item, units measure.System) g.Node {
	return g.Group{h.ID(domID("at", item.Entity)), h.Data("piece", item.Entity), h.Data("at", tenths(item.MiddleMM())),
		h.Data("up", tenths(item.BottomMM)), h.TabIndex("0"), h.Role("button"), h.Aria("label", ItemWords(item, units)),
		h.Aria("describedby", "room-help")}
}

func tenths(x float64) string { return strconv.FormatFloat(x, 'f', 1, 64) }

// walls draws the floor, and walls and ceiling as far as the room's size is known.
func (f *front) walls(hall *look.Hall) g.Node {
	left, right, top := f.left, f.left+f.wide/f.scale, f.top
	path := f.poly(left, 0, right, 0)
	if hall.HeightMM > 0 {
		top = hall.HeightMM
	}
	if hall.WidthMM > 0 {
		left, right = 0, hall.WidthMM
		path += f.poly(left, 0, left, top) + f.poly(right, 0, right, top)
	}
	if hall.HeightMM > 0 {
		path += f.poly(left, top, right, top)
	}
	return outline("ground", path)
}

func outline(class, path string) g.Node { return g.El("path", h.Class(class), g.Attr("d", path)) }

// word writes a text of a picture with its middle at a place.
func (f *front) word(xMM, yMM float64, text string) g.Node {
	return g.El("text", g.Attr("x", f.x(xMM)), g.Attr("y", f.y(yMM)), h.Aria("hidden", "true"), g.Text(text))
}

// ruler draws the scale along the floor: metres or feet from the room's left, as many as there is room for.
func (f *front) ruler(units measure.System) g.Node {
	every, unit := 1000.0, " m"
	if units == measure.Imperial {
		every, unit = measure.MMPerFoot, " ft"
	}
	times, path := 1, ""
	for i := 0; every*float64(times)*f.scale < 70; i++ {
		times *= [...]int{2, 5}[i%2] // 1, 2, 10, 20, 100
	}
	every *= float64(times)
	var labels g.Group
	for n := int(math.Ceil(f.left / every)); every*float64(n) < f.left+(f.wide-20)/f.scale; n++ {
		x := every * float64(n)
		path += f.poly(x, 0, x, -12/f.scale)
		labels = append(labels, f.word(x, -40/f.scale, strconv.Itoa(n*times)+unit))
		unit = ""
	}
	return g.Group{outline("ground", path), labels}
}

// riseMM is about how high a step is. Common practice, no source.
const riseMM = 170

// box draws a box as a plain outline: a door with its handle, a table with its legs, steps with their rise.
func (f *front) box(b *job.Box) g.Node {
	a := look.AreaOf(b)
	foot := a.BottomMM
	if b.Kind == "table" {
		foot = a.TopMM - min(60, b.HeightMM/4)
	}
	path := f.poly(a.LeftMM, foot, a.LeftMM, a.TopMM, a.RightMM, a.TopMM, a.RightMM, foot) + "Z"
	switch b.Kind {
	case "door":
		x, y := a.RightMM-b.WidthMM/8, a.BottomMM+b.HeightMM/2
		path += f.poly(x, y, x, y-b.HeightMM/20)
	case "table":
		in := b.WidthMM / 16
		path += f.poly(a.LeftMM+in, foot, a.LeftMM+in, a.BottomMM) + f.poly(a.RightMM-in, foot, a.RightMM-in, a.BottomMM)
	case "steps":
		n := math.Round(b.HeightMM / riseMM)
		for i := 1.0; i < n; i++ {
			y := a.BottomMM + float64(i*b.HeightMM)/n
			path += f.poly(a.LeftMM, y, a.RightMM, y)
		}
	}
	if b.Front {
		return outline("box before", path)
	}
	return outline("box", path)
}
