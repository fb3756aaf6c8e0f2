package view

import (
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/calc/colour"
)

// sand is the colour of balloons in pictures that are of no job.
func sand() job.Colour { return job.Colour{Value: "#d9b88a", Finish: "standard"} }

// gold is the colour of accents in such pictures.
func gold() job.Colour { return job.Colour{Value: "#b98a3c", Finish: "mirror"} }

// jobShades defines the shades of a job's colours.
func jobShades(j job.Job) g.Node {
	return Shades(append(append([]job.Colour(nil), j.Colours...), count.Undecided())...)
}

// Shades defines how balloons of the colours are lit, for every picture on the page: one gradient for each colour and
// finish. It takes no room.
func Shades(colours ...job.Colour) g.Node {
	return h.SVG(h.Class("shades"), h.Width("0"), h.Height("0"), decorative(), shades(colours...))
}

func shades(colours ...job.Colour) g.Node {
	seen := map[string]bool{}
	return g.El("defs", g.Map(colours, func(c job.Colour) g.Node {
		id := shadeID(c)
		if seen[id] {
			return nil
		}
		seen[id] = true
		return g.El("radialGradient", h.ID(id), g.Attr("cx", ".36"), g.Attr("cy", ".3"), g.Attr("r", ".82"),
			g.Map(colour.Shades(rgb(c), colour.Finish(c.Finish)), func(s colour.Stop) g.Node {
				return g.El("stop", g.Attr("offset", strconv.Itoa(s.OffsetPct)+"%"), g.Attr("stop-color", s.Colour.String()),
					g.If(s.OpacityPct < 100, g.Attr("stop-opacity", strconv.Itoa(s.OpacityPct)+"%")))
			}))
	}))
}

// shadeID names the gradient of a colour and finish; equal ones share it. It is short, since every balloon says it.
func shadeID(c job.Colour) string {
	at := rgb(c)
	value := uint64(at.R)<<16 | uint64(at.G)<<8 | uint64(at.B)
	return "s" + strconv.FormatUint(value, 36) + c.Finish[:min(2, len(c.Finish))]
}

// disc draws a circle at x, y of a radius, given as text.
func disc(x, y, radius string, more ...g.Node) g.Node {
	return g.El("circle", g.Attr("cx", x), g.Attr("cy", y), g.Attr("r", radius), g.Group(more))
}

// paint fills a disc as a lit balloon of the colour, whose shades the page defines.
func paint(c job.Colour) g.Node { return g.Attr("fill", "url(#"+shadeID(c)+")") }

// unknownRGB stands in for a colour that cannot be read.
var unknownRGB = colour.RGB{R: 0xc8, G: 0xc8, B: 0xc8}

func rgb(c job.Colour) colour.RGB {
	if value, ok := colour.Parse(c.Value); ok {
		return value
	}
	return unknownRGB
}
