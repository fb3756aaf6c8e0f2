package view

import (
	"strconv"
	"strings"

	g "maragu.dev/gomponents"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/calc/cluster"
	"garlandry/calc/measure"
)

// Pieces draws the list of pieces, in the order in which they are built, each with what it takes.
func Pieces(f Frame, j job.Job, p plan.Plan) g.Node {
	add := ButtonLink(f.at("pieces/new"), "go", fixed("{plus}Add a piece"))
	if len(j.Pieces) == 0 {
		return these(Heading("", "Pieces"),
			Empty("No pieces yet", "A piece is one thing to build: a garland over a door, a column, bouquets for the tables.",
				"Say what and how long, and the counts, the pack list and the cards follow.", g.If(f.Edits(), add)))
	}
	rows := make([]g.Node, 0, len(p.Pieces))
	for i, c := range p.Pieces {
		rows = append(rows, pieceRow(f, c, i, len(p.Pieces)))
	}
	return these(
		Heading("", "Pieces", g.If(f.Edits(), add)),
		Decisions(f, p.Notes, ""),
		el(`ul class="panel pieces"`, these(rows...)),
		g.If(f.Edits(),
			txt(`p class="soft"`, "The first are built first. What could be left out when time is short is set in each piece.")),
	)
}

func pieceRow(f Frame, c count.PieceCount, place, of int) g.Node {
	id := c.Piece.ID
	title := html(`<span class="rowtext"><span class="rowtitle">$</span><span class="soft">$</span></span>`,
		texts{c.Piece.Name, pieceSays(f, c)})
	figures := txt(`span class="rowfigure"`, pieceFigure(c))
	if !f.Edits() {
		return html(`<li id="$"><div class="row">{}{}</div></li>`, texts{domID("piece", id)}, title, figures)
	}
	move := func(act, label, icon string) g.Node {
		return ActForm(domID(act, id), f.at("pieces"), act, id, ButtonStyle("quiet step "+act), Icon(icon),
			txt(`span class="vh"`, label+" "+c.Piece.Name))
	}
	return html(`<li id="$"><a class="row" href="$">{}{}{open}</a>
		<div class="choices small">{}{}</div></li>`, texts{domID("piece", id), f.at("pieces/" + id)},
		title, figures,
		g.If(place > 0, move("up", "Move up", "back")),
		g.If(place+1 < of, move("down", "Move down", "open")))
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
		return html(
			`<section id="recount" class="panel recount" role="status"><p class="wrong">{care}<span>$</span></p></section>`,
			texts{wrong},
		)
	}
	big := Big(number(c.Balloons), "balloons")
	if c.Clusters > 0 {
		big = Big(number(c.Clusters), pick(c.Clusters == 1, "cluster", "clusters"))
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
	if c.Accents > 0 {
		facts = append(facts, Many(c.Accents, "accent cluster"))
	}
	if c.Ties > 0 {
		facts = append(facts, Many(c.Ties, "tie"))
	}
	return html(`<section id="recount" class="panel recount" role="status">{}
		<ul class="facts">{}</ul>
		{}
		{}</section>`, nil,
		big,
		eachText(facts, func(fact string) g.Node { return txt("li", fact) }),
		g.If(len(c.By) > 0, html(`<details id="recount-by" class="working"><summary>By size and colour</summary>
			<ul class="facts">{}</ul></details>`, nil,
			each(len(c.By), func(i int) g.Node {
				b := c.By[i]
				return html(`<li>{}$ $ $</li>`, texts{strconv.Itoa(b.Count), b.Colour.Name, inches(b.SizeIn)}, Swatch(b.Colour))
			}))),
		Working("How this was worked out", c.Working, ""))
}

// recipeWords says a recipe in balloons: "4 of 11-inch, 2 of 18-inch".
func recipeWords(r cluster.Recipe) string {
	parts := make([]string, len(r))
	for i, p := range r {
		parts[i] = strconv.Itoa(2*p.Duplets) + " of " + inches(p.SizeIn)
	}
	return strings.Join(parts, ", ")
}

// Decisions draws what the plan asks or warns of; piece narrows it to one piece, empty means all.
func Decisions(f Frame, notes []count.Note, piece string) g.Node {
	var rows []g.Node
	for _, n := range notes {
		if piece != "" && n.Piece != piece {
			continue
		}
		if n.Key != "" && len(n.Options) > 0 {
			rows = append(rows, decision(f, n))
		}
	}
	said := hintsOf(notes, piece)
	if len(rows) == 0 {
		return said
	}
	return these(el(`section class="panel" id="decisions"`, these(rows...)), said)
}

// hintsOf draws what the plan says of one piece without asking anything; nothing for all pieces together.
func hintsOf(notes []count.Note, piece string) g.Node {
	if piece == "" {
		return nothing
	}
	var own []count.Note
	for _, n := range notes {
		if n.Piece == piece {
			own = append(own, n)
		}
	}
	return hints(own)
}

// PieceShown draws what a piece takes for somebody who does not change it.
func PieceShown(f Frame, c count.PieceCount, notes []count.Note) g.Node {
	return these(
		Heading(pieceSays(f, c), c.Piece.Name),
		Recount(f, c, ""),
		hintsOf(notes, c.Piece.ID),
		g.If(c.Piece.Notes != "", Panel("Notes", "", txt("p", c.Piece.Notes))),
	)
}
