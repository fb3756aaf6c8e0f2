package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"
)

// List draws rows as a list inside a panel. Attributes may stand among the rows.
func List(rows ...g.Node) g.Node { return h.Ul(h.Class("list inset"), g.Group(rows)) }

// ListPanel draws rows as a list that is a panel of its own.
func ListPanel(rows ...g.Node) g.Node { return h.Ul(h.Class("list"), g.Group(rows)) }

// RowLink draws a row of a list that opens something: a title, a line below, a figure at the right. All but href and
// title may be empty.
func RowLink(id, href, title, below, right string) g.Node {
	return h.Li(g.If(id != "", h.ID(id)),
		h.A(h.Class("row"), h.Href(href),
			RowText(title, g.If(below != "", Small(below))),
			g.If(right != "", RowFigure(right, "")),
			Icon("open")))
}

// RowText draws the text of a row: its title and what stands below it.
func RowText(title string, below ...g.Node) g.Node {
	return h.Span(h.Class("rowtext"), RowTitle(title), g.Group(below))
}

// RowTitle draws the title of a row.
func RowTitle(title string) g.Node { return h.Span(h.Class("rowtitle"), g.Text(title)) }

// RowFigure draws the figure at the right of a row, with its unit below; unit may be empty.
func RowFigure(figure, unit string) g.Node {
	return h.Span(h.Class("rowfigure"), g.Text(figure), g.If(unit != "", h.Span(h.Class("soft unit"), g.Text(unit))))
}

// SplitRow draws a row with text at the left and a form or buttons at the right. Id may be empty.
func SplitRow(id string, text []g.Node, right ...g.Node) g.Node {
	return h.Li(g.If(id != "", h.ID(id)), h.Class("split"), h.Div(h.Class("rowtext"), g.Group(text)), g.Group(right))
}

// Facts draws a list of terms with their values, as [Fact] draws them.
func Facts(facts ...g.Node) g.Node { return h.Dl(h.Class("facts"), g.Group(facts)) }

// Fact draws one term of [Facts].
func Fact(term, value string) g.Node { return h.Div(h.Dt(g.Text(term)), h.Dd(g.Text(value))) }

// Hints draws a list of sentences, as [Hint] draws them.
func Hints(hints ...g.Node) g.Node { return h.Ul(h.Class("hints"), g.Group(hints)) }

// Hint draws one sentence of [Hints] beside an icon.
func Hint(icon, text string) g.Node { return h.Li(Icon(icon), h.Span(g.Text(text))) }

// Table draws a table: what it shows for screen readers, its columns' heads, its rows.
func Table(class, caption string, heads []string, rows ...g.Node) g.Node {
	return h.Table(h.Class(class), g.If(caption != "", h.Caption(h.Class("vh"), g.Text(caption))),
		h.THead(g.If(caption != "", h.Class("vh")), h.Tr(g.Map(heads, func(head string) g.Node {
			return h.Th(h.Scope("col"), g.Text(head))
		}))),
		h.TBody(rows...))
}
