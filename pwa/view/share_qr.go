package view

import (
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
)

// QR draws a code from its modules, true for dark, with the quiet zone of four modules that ISO/IEC 18004 asks for.
// It stays dark on white in every theme, since many readers want that. Empty for no modules.
func QR(modules [][]bool, label string) g.Node {
	if len(modules) == 0 {
		return nothing
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
	return html(`<svg class="qr" viewBox="0 0 $ $" role="img" aria-label="$" shape-rendering="crispEdges">
		<path fill="#ffffff" d="M0 0h$v$H0z"></path><path fill="#000000" d="$"></path></svg>`, texts{side, side, label, side, side, d.String()})
}
