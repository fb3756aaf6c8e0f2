package view

import (
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/plan/phrase"
	"garlandry/pwa/address"
)

// BuildSheets draws how to build each piece, or the one with an id, for paper: its picture in black with the numbers of
// its colours, its kinds of cluster, and their order.
func BuildSheets(f Frame, j job.Job, p plan.Plan, only string) g.Node {
	return onPaperPage(LabelBuildSheet, f.at(address.Pieces), "Back to the pieces", buildSheets(f, j, p, only))
}

// onPaperPage draws sheets for paper under a heading that is not printed.
func onPaperPage(title, back, label string, sheets g.Group) g.Node {
	return g.Group{
		h.Div(h.Class("noprint"), Heading("", title, PrintButton(), ButtonLink(back, Quiet, g.Text(label)))),
		h.Div(h.Class("sheets"), sheets),
	}
}

func buildSheets(f Frame, j job.Job, p plan.Plan, only string) (sheets g.Group) {
	for i := range p.Pieces {
		if c := &p.Pieces[i]; c.Balloons > 0 && (only == "" || c.Piece.ID == only) {
			sheets = append(sheets, buildSheet(f, j, p, c))
		}
	}
	return sheets
}

func buildSheet(f Frame, j job.Job, p plan.Plan, c *count.PieceCount) g.Node {
	n := numbers(j)
	order := g.Group{h.Class("order")}
	for _, s := range c.InOrder() {
		order = append(order, h.Li(g.Text(s)))
	}
	parts := g.Group{
		h.Class("sheet"),
		h.P(h.Class("context"), g.Text(untitled(j.Brief.Title)+" · "+pieceSays(f, *c))),
		h.H2(g.Text("Build " + c.Piece.Name)),
		h.Div(h.Class("cover"), Front{Look: p.Look(c, onCover), Person: true, numbers: n, Bar: true, Units: f.Units}.Draw()),
		n.legend(c.By),
		n.kinds(baseWords(c), &c.Laid),
		h.Ul(order),
	}
	for _, on := range c.On() {
		parts = append(parts, n.kinds(on.Name+": "+Many(on.Clusters, "cluster"), &on.Laid))
	}
	return h.Article(parts)
}

// baseWords says what the base of a piece is made of: "Base: 26 clusters".
func baseWords(c *count.PieceCount) string {
	if c.Clusters > 0 {
		return "Base: " + Many(c.Clusters, "cluster")
	}
	return Many(c.BaseBalloons(), "balloon")
}

// numbering gives colours their numbers on paper, from 1.
type numbering []job.Colour

// numbers returns the numbers of a job's colours. It is never nil: a nil numbering draws in colour.
func numbers(j job.Job) numbering { return append(numbering{}, j.Colours...) }

// noNumber stands in place of a number for a colour that is not in the palette.
const noNumber = "?"

// of returns the number of a colour, or [noNumber].
func (n numbering) of(c job.Colour) string {
	for i := range n {
		if n[i].ID == c.ID {
			return strconv.Itoa(i + 1)
		}
	}
	return noNumber
}

// legend lists the colours of balloons with their numbers, and how many there are by size.
func (n numbering) legend(by []count.PieceBalloons) g.Node {
	list := g.Group{h.Class("legend")}
	add := func(number, name string, same func(job.Colour) bool) {
		words := ""
		for k := range by {
			if b := &by[k]; same(b.Colour) {
				words += ", " + strconv.Itoa(b.Count) + " of " + phrase.Inch(b.SizeIn)
			}
		}
		if words != "" {
			list = append(list, h.Li(
				g.Raw(`<svg class="numbered" viewBox="0 0 24 24" aria-hidden="true">`), numbered("12", "12", 11, number),
				g.Raw("</svg>"), RowText(name, Small(words[2:]))))
		}
	}
	for i := range n {
		add(n.of(n[i]), n[i].Name, func(c job.Colour) bool { return c.ID == n[i].ID })
	}
	add(noNumber, capital(count.Undecided().Name), func(c job.Colour) bool { return n.of(c) == noNumber })
	return h.Ul(list)
}

// kinds draws kinds of cluster below a title, each with how often it is made and what is in it.
func (n numbering) kinds(title string, l *count.Laid) g.Node {
	half := widestKind(l.Kinds)
	list := g.Group{h.Class("kinds")}
	for i := range l.Kinds {
		k := &l.Kinds[i]
		list = append(list, kindRow(k, half, n, timesMade(k)))
	}
	return g.Group{h.H3(g.Text(title)), h.Ul(list)}
}

// numbered draws a circle in black with a number in it, where it is large enough for one.
func numbered(x, y string, radius float64, number string) g.Node {
	drawn := `<circle cx="` + x + `" cy="` + y + `" r="` + figure(radius, 1) + `"/>`
	if radius >= 8 {
		drawn += textAt(x, y, figure(radius*1.1, 0), number)
	}
	return g.Raw(drawn)
}

// textAt writes plain words or a number into a picture.
func textAt(x, y, size, words string) string {
	return `<text x="` + x + `" y="` + y + `" font-size="` + size + `">` + words + "</text>"
}
