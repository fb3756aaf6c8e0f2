package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan/count"
)

// Picture draws what a kind of piece looks like, its balloons in the colours in turn, or empty for none. Words beside
// it say the same.
func Picture(p count.Picture, colours []job.Colour) g.Node {
	balloons := make(g.Group, 0, len(p.Balloons)/3)
	for i := 0; i+2 < len(p.Balloons); i += 3 {
		x, y, r := p.Balloons[i], p.Balloons[i+1], p.Balloons[i+2]
		if len(colours) > 0 {
			balloons = append(balloons, circle(x, y, r, fill(colours[i/3%len(colours)].Value)))
			continue
		}
		balloons = append(balloons, g.El("circle", h.Class("todo"), g.Attr("cx", figure(x, 1)),
			g.Attr("cy", figure(y, 1)), g.Attr("r", figure(r, 1))))
	}
	return h.SVG(g.Attr("viewBox", "0 0 72 48"), decorative(),
		g.If(p.Lines != "", g.El("path", h.Class("line"), g.Attr("d", p.Lines))), balloons)
}
