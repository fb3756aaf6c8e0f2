package view

import (
	"fmt"
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/plan/look"
	"garlandry/calc/cluster"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
)

// Pieces draws the list of pieces, in the order in which they are built, each with what it takes.
func Pieces(f Frame, j job.Job, p plan.Plan) g.Node {
	add := ButtonLink(f.at(address.NewPiece), "go", g.Group{Icon("plus"), g.Text(labelAddPiece)})
	if len(j.Pieces) == 0 {
		return g.Group{
			Heading("", "Pieces"),
			Empty("No pieces yet",
				"A piece is one thing to build: a door garland, columns, bouquets.",
				"Counts, pack list and cards follow from it.",
				g.If(f.Edits(), add)),
		}
	}
	rows := make([]g.Node, 0, len(p.Pieces))
	for i, c := range p.Pieces {
		if f.Finder.Fits(pieceTexts(f, j, c)...) {
			rows = append(rows, pieceRow(f, p, c, i))
		}
	}
	return g.Group{
		jobShades(j),
		Heading("", "Pieces", g.If(f.Edits(), add)),
		toDecide(f, p.Notes),
		LinkBelow(f.at(address.Room), "pieces", roomLabel(f)),
		findField(f, "a piece", len(rows), len(p.Pieces), screenful),
		g.If(len(rows) > 0, ListPanel(h.ID("pieces"), g.Group(rows))),
		g.If(f.Edits(),
			Soft("Built in this order.")),
		decided(f, p.Notes),
	}
}

// pieceTexts returns what a piece is found by: its name, what it is, its notes, and the balloons it takes.
func pieceTexts(f Frame, j job.Job, c count.PieceCount) []string {
	texts := []string{c.Piece.Name, pieceSays(f, c), c.Piece.Notes}
	for _, colour := range pieceColours(j, c.Piece) {
		texts = append(texts, colour.Name)
	}
	for i := range c.Layers {
		texts = append(texts, c.Layers[i].Name, c.Layers[i].Notes)
	}
	for _, b := range c.By {
		texts = append(texts, inches(b.SizeIn))
	}
	return texts
}

func pieceRow(f Frame, p plan.Plan, c count.PieceCount, place int) g.Node {
	id, of := c.Piece.ID, len(p.Pieces)
	thumbnail := Thumbnail(p.Look(&c, inThumbnail))
	title := RowText(c.Piece.Name, Small(pieceSays(f, c)+" · "+pieceFigure(c)))
	if !f.Edits() {
		return h.Li(h.ID(domID("piece", id)), h.Div(h.Class("row"), thumbnail, title))
	}
	move := func(act, label, icon string) g.Node {
		return ActForm(domID(act, id), f.at(address.Pieces), act, id, ButtonStyle("quiet step "+act), Icon(icon),
			ForReaders(fmt.Sprintf("%s %s", label, c.Piece.Name)))
	}
	return h.Li(h.ID(domID("piece", id)),
		h.A(h.Class("row"), h.Href(f.at(address.Piece, id)), thumbnail, title, Icon("open")),
		h.Div(h.Class("choices small"),
			g.If(place > 0, move("up", "Move up", "back")),
			g.If(place+1 < of, move("down", "Move down", "open"))))
}

// pieceSays says in one line what the piece is and how big.
func pieceSays(f Frame, c count.PieceCount) string {
	line := kindLabel(c.Piece.Kind)
	if c.LengthMM > 0 {
		line += ", " + measure.FormatLength(c.LengthMM, f.Units)
	}
	switch c.Piece.Priority {
	case "should":
		line += ", should be done"
	case "could":
		line += ", could be left out"
	}
	return line
}

func pieceFigure(c count.PieceCount) string {
	if c.Clusters > 0 {
		return Many(c.Clusters, "cluster")
	}
	return Many(c.Balloons, "balloon")
}

// Recount says what a piece takes as it stands in the form, large. Wrong, if not empty, says why it cannot be counted.
func Recount(f Frame, c count.PieceCount, wrong string) g.Node {
	if wrong != "" {
		return ResultPanel("recount", wrong,
			h.P(h.Class("wrong"), Icon("care"), h.Span(g.Text(wrong))))
	}
	big, sentence := Big(number(c.Balloons), plural(c.Balloons, "balloon")), Many(c.Balloons, "balloon")
	if c.Clusters > 0 {
		big = Big(number(c.Clusters), plural(c.Clusters, "cluster"))
		sentence = Many(c.Clusters, "cluster") + ", " + sentence
	}
	var facts []string
	if c.Clusters > 0 {
		facts = append(facts, Many(c.Balloons, "balloon"))
	}
	if c.LengthMM > 0 {
		facts = append(facts, measure.FormatLength(c.LengthMM, f.Units)+" long")
	}
	if len(c.Recipe) > 0 {
		facts = append(facts, "A cluster: "+recipeWords(c.Recipe))
	}
	for i := range c.Layers {
		facts = append(facts, c.Layers[i].Name+": "+c.Layers[i].Words())
	}
	if c.Accents > 0 {
		facts = append(facts, Many(c.Accents, "accent cluster"))
	}
	if c.Ties > 0 {
		facts = append(facts, Many(c.Ties, "tie"))
	}
	return ResultPanel("recount", sentence, big,
		h.Ul(h.Class("facts"), g.Map(facts, func(fact string) g.Node { return h.Li(g.Text(fact)) })),
		g.If(len(c.By) > 0,
			Disclosure("working", "By size and colour", h.ID("recount-by"),
				h.Ul(h.Class("facts"),
					g.Map(c.By, func(b count.PieceBalloons) g.Node {
						return h.Li(Swatch(b.Colour),
							g.Textf("%d %s %s", b.Count, b.Colour.Name, inches(b.SizeIn)))
					})))),
		Working(labelMaths, c.Working, ""))
}

// recipeWords says a recipe in balloons: "4 of 11-inch, 2 of 18-inch".
func recipeWords(r cluster.Recipe) string {
	parts := make([]string, len(r))
	for i, p := range r {
		parts[i] = strconv.Itoa(2*p.Duplets) + " of " + inches(p.SizeIn)
	}
	return strings.Join(parts, ", ")
}

// notesOf returns the notes about one piece.
func notesOf(notes []count.Note, piece string) []count.Note {
	var own []count.Note
	for _, n := range notes {
		if n.About(piece) {
			own = append(own, n)
		}
	}
	return own
}

// pieceFront draws a piece as it will be, beside a person, and says how large it looks.
func pieceFront(f Frame, c count.PieceCount, seen *look.Look) g.Node {
	if seen == nil {
		return nil
	}
	v := Front{Look: seen, Person: true, Bar: true, Units: f.Units,
		Label: c.Piece.Name + " from the front, to scale: " + pieceFigure(c) + kindsSaid(&c.Laid)}
	if at, has := clusterAt(f, &c, 0); has && f.Path == f.at(address.Piece, c.Piece.ID) {
		at.mark(&v, seen)
	}
	return g.El("figure", h.ID("piece-front"), h.Class("cover"), v.Draw(),
		g.El("figcaption", h.Class("soft"),
			g.Text("Looks "+looksLike(seen, f.Units)+", "+about(seen.ThickMM(), f.Units)+" thick")))
}

// pieceCluster draws one cluster of a piece on the piece's page. More, if not nil, draws what can be done with it.
func pieceCluster(f Frame, c count.PieceCount, more func(at *clusterShown) g.Node) g.Node {
	at, has := clusterAt(f, &c, 0)
	switch {
	case !has || f.Path != f.at(address.Piece, c.Piece.ID):
		return nil
	case f.Cluster == "":
		return foldedCluster(at.draw(f, ""))
	}
	return PanelOf("clusterpanel", "", "", at.draw(f, ""),
		g.Iff(more != nil && at.number > 0, func() g.Node { return more(&at) }))
}

// sendPicture draws the button that sends the large picture of the page, or saves it. It needs a script, which shows
// it.
func sendPicture(name string) g.Node {
	return Button(Quiet, h.Data("picture", name+".png"), g.Attr("hidden"), Icon("share"), g.Text("Send the picture"))
}

// buildSheetLink leads to how a piece is built, for paper.
func buildSheetLink(f Frame, piece string) g.Node {
	return ButtonLink(f.at(address.BuildSheet)+"?piece="+piece, Quiet, Icon("print"), g.Text(LabelBuildSheet))
}

// PieceShown draws what a piece takes for somebody who does not change it.
func PieceShown(f Frame, j job.Job, c count.PieceCount, seen *look.Look, notes []count.Note) g.Node {
	return g.Group{
		jobShades(j),
		Heading(pieceSays(f, c), c.Piece.Name),
		pieceFront(f, c, seen),
		pieceCluster(f, c, nil),
		ButtonRow(g.If(seen != nil, sendPicture(c.Piece.Name)), buildSheetLink(f, c.Piece.ID)),
		Recount(f, c, ""),
		hints(notesOf(notes, c.Piece.ID)),
		g.If(c.Piece.Notes != "", Panel("Notes", "", h.P(g.Text(c.Piece.Notes)))),
	}
}
