package view

import (
	g "maragu.dev/gomponents"

	"garlandry/calc/measure"
)

// barRoom is the room below a picture for its scale bar, as a share of the picture's longer side.
const barRoom = 0.07

// Lengths of scale bars in mm, the longest first. Those of imperial jobs are 10, 5, 3 and 1 ft, and 6 in.
var (
	metricBars   = [...]float64{5000, 2000, 1000, 500, 200}
	imperialBars = [...]float64{3048, 1524, 914.4, 304.8, 152.4}
)

// bar draws a bar of a round length at the lower right, with that length: the longest that takes at most a third of the
// picture.
func (f *front) bar(units measure.System) g.Node {
	lengths := &imperialBars
	if units == measure.Metric {
		lengths = &metricBars
	}
	i := 0
	for i+1 < len(lengths) && lengths[i]*f.scale > f.wide/3 {
		i++
	}
	long := lengths[i] * f.scale
	left, y := f.wide-4-long, f.high-14
	return g.Raw(`<path class="ground bar" d="M` + f.n(left) + " " + f.n(y) + "h" + f.n(long) + `"/>` +
		textAt(f.n(left-60), f.n(y), "32", measure.FormatLength(lengths[i], units)))
}
