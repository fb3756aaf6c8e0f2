package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

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
	lengths := imperialBars
	if units == measure.Metric {
		lengths = metricBars
	}
	long := lengths[len(lengths)-1]
	for _, mm := range lengths {
		if mm*f.scale <= f.wide/3 {
			long = mm
			break
		}
	}
	right, y := f.wide-4, f.high-8
	left := right - long*f.scale
	return g.Group{
		g.El("path", h.Class("ground"), g.Attr("d", "M"+f.n(left)+" "+f.n(y-12)+"V"+f.n(y)+"H"+f.n(right)+"V"+f.n(y-12))),
		g.El("text", g.Attr("x", f.n(left-8)), g.Attr("y", f.n(y-2)), g.Attr("font-size", "32"),
			g.Attr("text-anchor", "end"), g.Text(measure.FormatLength(long, units))),
	}
}
