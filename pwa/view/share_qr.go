package view

import (
	"fmt"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"
)

// QR draws a code from its modules, true for dark, with the quiet zone of four modules that ISO/IEC 18004 asks for.
// It is dark on white in every theme, since many scanners need that. It draws nothing for no modules.
func QR(modules [][]bool, label string) g.Node {
	if len(modules) == 0 {
		return nil
	}
	const quiet = 4
	side := len(modules) + 2*quiet
	var d strings.Builder
	for y, row := range modules {
		for x := 0; x < len(row); x++ {
			run := x
			for run < len(row) && row[run] {
				run++
			}
			if run > x {
				fmt.Fprintf(&d, "M%d %dh%dv1h-%dz", x+quiet, y+quiet, run-x, run-x)
				x = run
			}
		}
	}
	return h.SVG(h.Class("qr"), g.Attr("viewBox", fmt.Sprintf("0 0 %d %d", side, side)), h.Role("img"),
		h.Aria("label", label), g.Attr("shape-rendering", "crispEdges"),
		g.El("path", g.Attr("fill", "#ffffff"), g.Attr("d", fmt.Sprintf("M0 0h%dv%dH0z", side, side))),
		g.El("path", g.Attr("fill", "#000000"), g.Attr("d", d.String())))
}
