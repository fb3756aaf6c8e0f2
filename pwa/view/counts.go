package view

import (
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/calc/measure"
)

// Counts draws what the job takes: clusters by piece, balloons by size and colour, ties. Each figure opens its working.
func Counts(f Frame, j job.Job, p plan.Plan) g.Node {
	if len(p.Pieces) == 0 {
		return g.Group{Heading(untitled(j.Brief.Title), "Counts"),
			Empty("Nothing to count yet", "Once there is a piece, its clusters, balloons and ties stand here, with spares and the working behind each figure.",
				"", g.If(f.Edits(), ButtonLink(f.at("pieces/new"), "go", Icon("plus"), g.Text("Add a piece"))))}
	}
	clusters, balloons, buy := 0, 0, 0
	for _, pc := range p.Pieces {
		clusters += pc.Clusters + pc.Accents
	}
	for _, line := range p.Balloons {
		balloons += line.Need
		buy += line.Buy
	}
	return g.Group{
		Heading(untitled(j.Brief.Title), "Counts", printButton()),
		el(`div class="totals"`, Big(number(clusters), plural(clusters, "cluster")), Big(number(balloons), plural(balloons, "balloon")), Big(number(p.Ties), plural(p.Ties, "tie"))),
		el(`div class="columns"`,
			el("div", clustersByPiece(f, p)),
			el("div", balloonsBySize(f, j, p, buy), ties(p))),
	}
}

func plural(n int, noun string) string {
	if n == 1 {
		return noun
	}
	return noun + "s"
}

func clustersByPiece(f Frame, p plan.Plan) g.Node {
	return Panel("Clusters by piece", "", el(`div class="countlist"`, g.Map(p.Pieces, func(pc plan.PieceCount) g.Node { return pieceCount(f, pc) })))
}

func pieceCount(f Frame, pc plan.PieceCount) g.Node {
	n, unit := pc.Clusters, plural(pc.Clusters, "cluster")
	if n == 0 {
		n, unit = pc.Balloons, plural(pc.Balloons, "balloon")
	}
	if pc.Accents > 0 {
		unit += " and " + Many(pc.Accents, "accent")
	}
	return el(`details class="count"`, h.ID(domID("count", pc.Piece.ID)),
		el("summary", txt(`b class="n"`, number(n)), el(`span class="rowtext"`, txt(`span class="soft"`, unit), txt(`span class="rowtitle"`, pc.Piece.Name)), Icon("open")),
		el(`div class="opened"`,
			el(`dl class="facts"`,
				g.If(pc.LengthMM > 0, fact("Length", measure.FormatLength(pc.LengthMM, f.Units))),
				g.If(len(pc.Recipe) > 0, fact("Recipe", pc.Recipe.String())),
				g.If(pc.Duplets > 0, fact("Duplets", number(pc.Duplets))),
				fact("Balloons", number(pc.Balloons)),
				g.If(pc.Accents > 0, fact("Accent clusters", number(pc.Accents)+", "+number(pc.AccentBalloons)+" balloons")),
				fact("Ties", number(pc.Ties))),
			sections(f, pc.Sections),
			pieceBalloons(f, pc.By),
			workingOpen(f, pc.Working)))
}

func sections(f Frame, list []plan.Section) g.Node {
	if len(list) < 2 {
		return g.Group{}
	}
	parts := make([]string, len(list))
	for i, s := range list {
		parts[i] = number(s.Clusters) + " clusters (" + measure.FormatLength(s.LengthMM, f.Units) + ")"
	}
	return txt("p", "Carried in "+strconv.Itoa(len(list))+" sections: "+strings.Join(parts, ", ")+".")
}

func pieceBalloons(f Frame, by []plan.PieceBalloons) g.Node {
	if len(by) == 0 {
		return g.Group{}
	}
	return el(`ul class="mini"`, g.Map(by, func(b plan.PieceBalloons) g.Node {
		return el("li", Swatch(b.Colour), el("span", txt("b", number(b.Count)), g.Text(" "+b.Colour.Name+" "+inches(b.SizeIn)), txt(`span class="soft"`, sizedTo(f, b.SizeIn, b.ToIn))))
	}))
}

func sizedTo(f Frame, sizeIn int, toIn float64) string {
	if toIn <= 0 {
		return ""
	}
	return ", sized to " + measure.FormatSmallLength(toIn*measure.MMPerInch, f.Units)
}

// workingOpen draws a working's steps where the figure is open already.
func workingOpen(f Frame, lines []plan.Line) g.Node {
	own := ""
	if f.Owns() {
		own = f.at("figures")
	}
	return Working("How this was worked out", lines, own)
}

func balloonsBySize(f Frame, j job.Job, p plan.Plan, buy int) g.Node {
	var groups []g.Node
	for i := 0; i < len(p.Balloons); {
		size, first := p.Balloons[i].SizeIn, i
		total := 0
		for i < len(p.Balloons) && p.Balloons[i].SizeIn == size {
			total += p.Balloons[i].Buy
			i++
		}
		groups = append(groups, el(`h3 class="sizehead"`, g.Text(inches(size)), txt(`span class="soft"`, number(total)+" to buy")),
			el(`div class="countlist balloons"`, g.Map(p.Balloons[first:i], func(b plan.BalloonLine) g.Node { return balloonLine(f, j, b) })))
	}
	if len(groups) == 0 {
		return g.Group{}
	}
	return Panel("Balloons to buy", number(buy)+" with spares", el(`div class="balloonhead" aria-hidden="true"`, el("span"), txt("span", "need"), txt("span", "spare"), txt("span", "buy"), el("span")), g.Group(groups))
}

func balloonLine(f Frame, j job.Job, b plan.BalloonLine) g.Node {
	n := func(class, label string, value int) g.Node {
		return el("span", h.Class("num "+class), txt(`span class="vh"`, ", "+label+" "), g.Text(number(value)))
	}
	return el(`details class="count balloon-line"`, h.ID(domID("count", b.Key)),
		el("summary", el(`span class="colourname"`, Swatch(b.Colour), el("span", g.Text(b.Colour.Name), g.If(b.Colour.Finish != "" && b.Colour.Finish != "standard", txt(`span class="soft"`, " "+b.Colour.Finish)))),
			n("", "need", b.Need), n("", "spares", b.Spares), n("buy", "buy", b.Buy), Icon("open")),
		el(`div class="opened"`,
			el(`ul class="mini"`, g.Map(b.Pieces, func(s plan.PieceShare) g.Node {
				return el("li", el("span", txt("b", number(s.Count)), g.Text(" for "+s.Piece.Name), txt(`span class="soft"`, sizedTo(f, b.SizeIn, s.ToIn))))
			})),
			txt(`p class="formula"`, number(b.Need)+" needed + "+number(b.Spares)+" spare = "+number(b.Buy)),
			txt(`p class="soft"`, "As many spares as leave you enough "+figure(j.Brief.SurePct, 1)+" times in 100 when some burst."),
			g.If(f.Owns(), el("p", el("a", h.Href(f.at("figures")), g.Text("Use my own breakage"))))))
}

func ties(p plan.Plan) g.Node {
	return Panel("Ties", "", Big(number(p.Ties), "260s used as ties, without spares"), txt(`p class="soft"`, "With spares they stand on the pack list."))
}

// printButton prints the page; the phone's script shows it, since paper needs a script to be asked for from a page.
func printButton() g.Node {
	return el(`button type="button" class="quiet" data-print hidden`, Icon("print"), g.Text("Print"))
}
