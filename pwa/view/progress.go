package view

import (
	"fmt"
	"math"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/calc/outline"
)

// Progress draws how far a piece is. A piece with a line is drawn along that line in its own proportions, filling with
// its own colours from one end as clusters are made; others are a string of beads. Beads stand for clusters; they are
// not to scale. The figure stands beside it as text.
func Progress(j job.Job, pc count.PieceCount, made, total int) g.Node {
	colours := pieceColours(j, pc.Piece)
	if len(colours) == 0 {
		colours = j.Colours
	}
	if total <= 0 {
		return g.Group{}
	}
	shape, curved := lineOf(pc.Piece)
	if !curved {
		return Beads(made, total, colours)
	}
	shown := min(max(total, 12), beadsShown)
	points, err := outline.Points(shape, shown+1)
	if err != nil {
		return Beads(made, total, colours)
	}
	points = points[:shown] // a ring's last point is its first again
	return garland(points, made, total, colours)
}

// lineOf returns the line a piece follows if it is more than a straight one.
func lineOf(p job.Piece) (outline.Shape, bool) {
	if k, _ := count.KindOf(count.Kinds(), p.Kind); k.Line != nil {
		return k.Line(p)
	}
	return outline.Shape{}, false
}

// Measures of the picture of a garland, in its own units.
const (
	pictureWidth, pictureHeight = 320.0, 190.0
	pictureEdge                 = 18.0
)

func garland(points []outline.Point, made, total int, colours []job.Colour) g.Node {
	low, high := points[0], points[0]
	for _, p := range points {
		low.XMM, low.YMM = min(low.XMM, p.XMM), min(low.YMM, p.YMM)
		high.XMM, high.YMM = max(high.XMM, p.XMM), max(high.YMM, p.YMM)
	}
	wide, tall := max(high.XMM-low.XMM, 1), max(high.YMM-low.YMM, 1)
	scale := min((pictureWidth-2*pictureEdge)/wide, (pictureHeight-2*pictureEdge)/tall)
	width, height := float64(wide*scale)+2*pictureEdge, float64(tall*scale)+2*pictureEdge
	at := func(p outline.Point) (x, y float64) {
		return float64((p.XMM-low.XMM)*scale) + pictureEdge, height - pictureEdge - float64((p.YMM-low.YMM)*scale)
	}
	made = min(max(made, 0), total)
	filled := made * len(points) / total
	if made > 0 && filled == 0 {
		filled = 1
	}
	radius := beadRadius(points, scale)
	track := make([]string, len(points))
	beads := make([]g.Node, 0, len(points))
	for i, p := range points {
		x, y := at(p)
		track[i] = figure(x, 1) + " " + figure(y, 1)
		radius := float64(radius * (0.88 + float64(float64(i*5%3)*0.12)))
		if i >= filled {
			beads = append(
				beads,
				g.El("circle", g.Attr("cx", figure(x, 1)), g.Attr("cy", figure(y, 1)),
					g.Attr("r", figure(radius-0.6, 1)), h.Class("todo")),
			)
			continue
		}
		colour := "#8a8178"
		if len(colours) > 0 {
			colour = fill(colours[i%len(colours)].Value)
		}
		beads = append(beads, circle(x, y, radius, colour))
	}
	return h.SVG(h.Class("garland"),
		g.Attr("viewBox", fmt.Sprintf("0 0 %s %s", figure(width, 1), figure(height, 1))),
		h.Width(figure(width, 0)), h.Height(figure(height, 0)), h.Role("img"),
		h.Aria("label", fmt.Sprintf("%d of %d", made, total)),
		g.El("path", h.Class("track"), g.Attr("d", "M"+strings.Join(track, "L"))),
		g.Group(beads))
}

// beadRadius is half the distance between neighbours and a little more, so that beads touch like clusters do; within
// bounds, so that few do not swell and many do not vanish.
func beadRadius(points []outline.Point, scale float64) float64 {
	apart := math.Hypot(points[1].XMM-points[0].XMM, points[1].YMM-points[0].YMM)
	return min(max(float64(apart*scale*0.54), 4), pictureEdge-4)
}
