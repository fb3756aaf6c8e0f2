package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
)

// circle draws a balloon; the colour must be a checked hex colour, as all colours of a job are.
func circle(x, y, r float64, fill string) g.Node {
	return disc(figure(x, 2), figure(y, 2), figure(r, 2), g.Attr("fill", fill), h.Class("balloon"))
}

// Swatch draws a colour of the palette as a small balloon; its name stands beside it.
func Swatch(c job.Colour) g.Node {
	return h.SVG(h.Class("swatch"), g.Attr("viewBox", "0 0 24 24"), decorative(),
		circle(12, 12, 10.5, fill(c.Value)),
		shine(c.Finish))
}

// shine hints at the finish, so that mirror and standard of one colour can be told apart.
func shine(finish string) g.Node {
	switch finish {
	case "mirror", "metallic":
		return g.El("path", h.Class("shine strong"),
			g.Attr("d", "M5.5 13A7 7 0 0 1 13 5.5M8.5 14A5 5 0 0 1 14 8.5"))
	case "pearl":
		return g.El("path", h.Class("shine strong"), g.Attr("d", "M5.5 12A7 7 0 0 1 12 5.5"))
	case "crystal":
		return g.El("circle", h.Class("shine strong"), g.Attr("cx", "12"), g.Attr("cy", "12"), g.Attr("r", "6.5"))
	}
	return g.El("path", h.Class("shine"), g.Attr("d", "M6.5 10.5A6 6 0 0 1 10.5 6.5"))
}

// fill returns a colour that may stand in an SVG attribute; grey for anything else.
func fill(value string) string { return rgb(job.Colour{Value: value}).String() }
