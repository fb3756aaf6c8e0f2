package view

import (
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/plan/phrase"
	"garlandry/calc/cluster"
	"garlandry/pwa/address"
)

// BuildSheets draws how to build each piece, or the one with an id, for paper: its picture in black with the numbers of
// its colours, its kinds of cluster, and their order.
func BuildSheets(f Frame, j job.Job, p plan.Plan, only string) g.Node {
	back := ButtonLink(f.at(address.Pieces), Quiet, g.Text("Back to the pieces"))
	if only != "" {
		back = ButtonLink(f.at(address.Piece, only), Quiet, g.Text("Back to the piece"))
	}
	return g.Group{
		h.Div(h.Class("noprint"), Heading("", LabelBuildSheet, PrintButton(), back)),
		h.Div(h.Class("sheets"), buildSheets(f, j, p, only)),
	}
}

func buildSheets(f Frame, j job.Job, p plan.Plan, only string) g.Node {
	return g.Map(p.Pieces, func(c count.PieceCount) g.Node {
		if c.Balloons == 0 || only != "" && c.Piece.ID != only {
			return nil
		}
		return buildSheet(f, j, p, &c)
	})
}

func buildSheet(f Frame, j job.Job, p plan.Plan, c *count.PieceCount) g.Node {
	n := numbering(j.Colours)
	picture := Front{Look: p.Look(c, onCover), Person: true, numbers: n, Bar: true, Units: f.Units}.Draw()
	var order []string
	if c.Clusters > 1 {
		if order = c.InOrder(); len(order) == 0 {
			order = []string{"All clusters of the base are alike."}
		}
	}
	return h.Article(h.Class("sheet"),
		h.P(h.Class("context"), g.Text(untitled(j.Brief.Title)+" · "+pieceSays(f, *c))),
		h.H2(g.Text("Build "+c.Piece.Name)),
		g.If(picture != nil, h.Div(h.Class("cover"), picture)),
		h.Ul(h.Class("legend"), g.Map(j.Colours, func(colour job.Colour) g.Node { return n.entry(colour, c.By) })),
		h.P(h.B(g.Text(baseWords(c)))),
		n.kinds(&c.Laid),
		h.Ul(h.Class("order"), g.Map(order, func(s string) g.Node { return h.Li(g.Text(s)) })),
		g.Map(c.On(), func(on *count.LayerCount) g.Node {
			return g.Group{
				h.P(h.B(g.Text(on.Name + ": " + Many(on.Clusters, "cluster")))),
				n.kinds(&on.Laid),
			}
		}))
}

// baseWords says what the base of a piece is made of: "Base: 26 clusters, 4 of 11-inch each".
func baseWords(c *count.PieceCount) string {
	if c.Clusters == 0 || len(c.Recipe) == 0 {
		return Many(c.BaseBalloons(), "balloon")
	}
	return "Base: " + Many(c.Clusters, "cluster") + ", each " + recipeWords(c.Recipe)
}

// numbering gives colours their numbers on paper, from 1.
type numbering []job.Colour

// of returns the number of a colour; "?" for one that is not in the palette.
func (n numbering) of(c job.Colour) string {
	for i := range n {
		if n[i].ID == c.ID {
			return strconv.Itoa(i + 1)
		}
	}
	return "?"
}

// entry says a colour with its number, and how many balloons of it there are by size; nothing if there are none.
func (n numbering) entry(c job.Colour, by []count.PieceBalloons) g.Node {
	words := ""
	for _, b := range by {
		if b.Colour.ID == c.ID {
			if words != "" {
				words += ", "
			}
			words += strconv.Itoa(b.Count) + " of " + phrase.Inch(b.SizeIn)
		}
	}
	return g.If(words != "", h.Li(
		h.SVG(h.Class("numbered"), g.Attr("viewBox", "0 0 24 24"), decorative(), numbered("12", "12", 11, n.of(c))),
		RowText(c.Name, Small(words))))
}

// kinds draws kinds of cluster, each with its number and what is in it.
func (n numbering) kinds(l *count.Laid) g.Node {
	half := 0.0
	for _, k := range l.Kinds {
		half = max(half, cluster.BallMM(k.Recipe)/2)
	}
	return h.Ul(h.Class("kinds"), g.Map(l.Kinds, func(k count.ClusterKind) g.Node {
		return h.Li(
			g.Iff(half > 0, func() g.Node { return kindPicture(&k, half, n) }),
			RowText(strconv.Itoa(k.Clusters)+" x "+k.Name, Small(k.Words())))
	}))
}

// numbered draws a circle in black with a number in it, where it is large enough for one.
func numbered(x, y string, radius float64, number string) g.Node {
	return g.Group{disc(x, y, figure(radius, 1)),
		g.If(radius >= 8, g.El("text", g.Attr("x", x), g.Attr("y", y), g.Attr("font-size", figure(radius*1.1, 0)),
			g.Text(number)))}
}
