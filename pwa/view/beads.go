package view

import (
	"fmt"
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
)

// circle draws a balloon; the colour must be a checked hex colour, as all colours of a job are.
func circle(x, y, r float64, fill string) g.Node {
	return g.El("circle", g.Attr("cx", figure(x, 2)), g.Attr("cy", figure(y, 2)), g.Attr("r", figure(r, 2)),
		g.Attr("fill", fill), h.Class("balloon"))
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
func fill(value string) string {
	if len(value) != 7 || value[0] != '#' {
		return "#c8c8c8"
	}
	if _, err := strconv.ParseUint(value[1:], 16, 32); err != nil {
		return "#c8c8c8"
	}
	return value
}

// beadsShown is the most beads a string has; a longer piece shares its clusters out over them.
const beadsShown = 60

// Beads draws a piece's progress as a string of beads in the job's colours: made ones filled, the others outlined. The
// figure stands beside it as text, so screen readers get only the label.
func Beads(made, total int, colours []job.Colour) g.Node {
	if total <= 0 {
		return g.Group{}
	}
	made = min(max(made, 0), total)
	shown := min(total, beadsShown)
	filled := made * shown / total
	if made > 0 && filled == 0 {
		filled = 1
	}
	const perRow, step = 20, 16 // 320 wide, as a phone shows it
	rows := (shown + perRow - 1) / perRow
	width := min(shown, perRow) * step
	beads := make([]g.Node, 0, shown)
	for i := range shown {
		x, y := float64(i%perRow*step+step/2), float64(i/perRow*step+step/2)
		if i < filled {
			colour := "#8a8178"
			if len(colours) > 0 {
				colour = fill(colours[i%len(colours)].Value)
			}
			beads = append(beads, circle(x, y, 6.5, colour))
			continue
		}
		beads = append(beads, g.El("circle", g.Attr("cx", figure(x, 2)), g.Attr("cy", figure(y, 2)),
			g.Attr("r", "5.8"), h.Class("todo")))
	}
	return h.SVG(h.Class("beads"), g.Attr("viewBox", fmt.Sprintf("0 0 %d %d", width, rows*step)),
		h.Width(strconv.Itoa(width)), h.Height(strconv.Itoa(rows*step)), h.Role("img"),
		h.Aria("label", fmt.Sprintf("%d of %d", made, total)), g.Group(beads))
}
