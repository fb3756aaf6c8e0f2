package view

import (
	"fmt"
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"
)

// QR draws a code from its modules, true for dark, with the quiet zone of four modules that ISO/IEC 18004 asks for.
// It stays dark on white in every theme, since many readers want that. Empty for no modules.
func QR(modules [][]bool, label string) g.Node {
	if len(modules) == 0 {
		return g.Group{}
	}
	const quiet = 4
	side := strconv.Itoa(len(modules) + 2*quiet)
	var d strings.Builder
	for y, row := range modules {
		for x := 0; x < len(row); x++ {
			run := x
			for run < len(row) && row[run] {
				run++
			}
			if run > x {
				d.WriteString(
					"M" + strconv.Itoa(x+quiet) + " " + strconv.Itoa(y+quiet) + "h" + strconv.Itoa(run-x) + "v1h-" + strconv.Itoa(
						run-x,
					) + "z",
				)
				x = run
			}
		}
	}
	return h.SVG(h.Class("qr"), g.Attr("viewBox", fmt.Sprintf("0 0 %s %s", side, side)), h.Role("img"),
		h.Aria("label", label), g.Attr("shape-rendering", "crispEdges"),
		g.El("path", g.Attr("fill", "#ffffff"), g.Attr("d", fmt.Sprintf("M0 0h%sv%sH0z", side, side))),
		g.El("path", g.Attr("fill", "#000000"), g.Attr("d", d.String())))
}
