package view

import (
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
)

// Counts draws what the job takes: clusters by piece, balloons by size and colour, ties. Each figure opens its working.
func Counts(f Frame, j job.Job, p plan.Plan) g.Node {
	if len(p.Pieces) == 0 {
		return g.Group{
			jobHeading(j, "Counts"),
			Empty("Nothing to count yet",
				"Add a piece to see its clusters, balloons and ties.",
				"",
				g.If(f.Edits(), ButtonLink(f.at(address.NewPiece), "go", Icon("plus"), g.Text(labelAddPiece)))),
		}
	}
	clusters, balloons, buy := 0, 0, 0
	for _, pc := range p.Pieces {
		clusters += pc.Clusters + pc.Accents
		for i := range pc.Layers {
			clusters += pc.Layers[i].Clusters
		}
	}
	for _, line := range p.Balloons {
		balloons += line.Need
		buy += line.Buy
	}
	return g.Group{
		jobHeading(j, "Counts",
			ButtonLink(f.at(address.Shop), "", Icon("pack"), g.Text("Shop")),
			PrintButton()),
		h.Div(h.Class("totals"),
			Big(number(clusters), plural(clusters, "cluster")),
			Big(number(balloons), plural(balloons, "balloon")),
			Big(number(p.Ties), plural(p.Ties, "tie"))),
		g.If(p.Ties > 0, Soft("Ties are 260s. Their spares are on the pack list.")),
		Columns(g.Group{clustersByPiece(f, p)}, g.Group{balloonsBySize(f, j, p, buy)}),
	}
}

func clustersByPiece(f Frame, p plan.Plan) g.Node {
	return Panel("Clusters by piece", "",
		h.Div(h.Class("countlist"), g.Map(p.Pieces, func(x count.PieceCount) g.Node { return pieceCount(f, x) })))
}

func pieceCount(f Frame, pc count.PieceCount) g.Node {
	n, unit := pc.Clusters, plural(pc.Clusters, "cluster")
	if n == 0 {
		n, unit = pc.Balloons, plural(pc.Balloons, "balloon")
	}
	if len(pc.Layers) > 0 {
		unit += ", " + Many(len(pc.Layers), "layer")
	}
	if pc.Accents > 0 {
		unit += " and " + Many(pc.Accents, "accent")
	}
	var layers g.Group
	for i := range pc.Layers {
		l := &pc.Layers[i]
		layers = append(layers, Fact(l.Name, l.Words()+", "+Many(l.Balloons, "balloon")))
	}
	return h.Details(h.Class("count"), h.ID(domID("count", pc.Piece.ID)),
		h.Summary(h.B(h.Class("n"), g.Text(number(n))),
			h.Span(h.Class("rowtext"), Small(unit), RowTitle(pc.Piece.Name)),
			Icon("open")),
		h.Div(h.Class("opened"),
			Facts(g.If(pc.LengthMM > 0, Fact("Length", measure.FormatLength(pc.LengthMM, f.Units))),
				g.If(len(pc.Recipe) > 0, Fact("Recipe", pc.Recipe.String())),
				g.If(pc.Duplets > 0, Fact("Duplets", number(pc.Duplets))),
				Fact("Balloons", number(pc.Balloons)),
				layers,
				g.If(pc.Accents > 0,
					Fact("Accent clusters", number(pc.Accents)+", "+Many(pc.AccentBalloons, "balloon"))),
				Fact("Ties", number(pc.Ties))),
			sections(f, pc.Sections),
			pieceBalloons(f, pc.By),
			showMaths(f, pc.Working)))
}

func sections(f Frame, list []count.Section) g.Node {
	if len(list) < 2 {
		return nil
	}
	parts := make([]string, len(list))
	for i, s := range list {
		parts[i] = Many(s.Clusters, "cluster") + " (" + measure.FormatLength(s.LengthMM, f.Units) + ")"
		if s.Base > 0 {
			parts[i] = "base " + number(s.Base) + " " + parts[i]
		}
	}
	return h.P(g.Textf("Carried in %d sections: %s.", len(list), strings.Join(parts, ", ")))
}

func pieceBalloons(f Frame, by []count.PieceBalloons) g.Node {
	if len(by) == 0 {
		return nil
	}
	return h.Ul(h.Class("mini"),
		g.Map(by, func(b count.PieceBalloons) g.Node {
			return h.Li(Swatch(b.Colour),
				h.Span(h.B(g.Text(number(b.Count))), g.Textf(" %s %s", b.Colour.Name, inches(b.SizeIn)),
					Small(sizedTo(f, b.SizeIn, b.ToIn))))
		}))
}

func sizedTo(f Frame, sizeIn int, toIn float64) string {
	if toIn <= 0 {
		return ""
	}
	return ", sized to " + measure.FormatSmallLength(toIn*measure.MMPerInch, f.Units)
}

// showMaths draws a [Working]. The owner can go on from it to their own numbers.
func showMaths(f Frame, lines []figures.Line) g.Node {
	own := ""
	if f.Owns() {
		own = f.at(address.Figures)
	}
	return Working(labelMaths, lines, own)
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
		groups = append(
			groups,
			h.H3(h.Class("sizehead"), g.Text(inches(size)), Small(number(total)+" to buy")),
			h.Div(h.Class("countlist balloons"),
				g.Map(p.Balloons[first:i], func(b count.BalloonLine) g.Node { return balloonLine(f, j, b) })),
		)
	}
	if len(groups) == 0 {
		return nil
	}
	return Panel(
		"Balloons to buy",
		number(buy)+" with spares",
		h.Div(h.Class("balloonhead"), h.Aria("hidden", "true"),
			h.Span(),
			h.Span(g.Text("need")),
			h.Span(g.Text("spare")),
			h.Span(g.Text("buy")),
			h.Span()),
		g.Group(groups),
	)
}

func balloonLine(f Frame, j job.Job, b count.BalloonLine) g.Node {
	n := func(class, label string, value int) g.Node {
		return h.Span(h.Class("num "+class), ForReaders(", "+label+" "), g.Text(number(value)))
	}
	return h.Details(h.Class("count balloon-line"), h.ID(domID("count", b.Key)),
		h.Summary(h.Span(h.Class("colourname"),
			Swatch(b.Colour),
			h.Span(g.Text(b.Colour.Name),
				g.If(b.Colour.Finish != "" && b.Colour.Finish != "standard", Small(" "+b.Colour.Finish)))),
			n("", "need", b.Need),
			n("", "spares", b.Spares),
			n("buy", "buy", b.Buy),
			Icon("open")),
		h.Div(h.Class("opened"),
			h.Ul(h.Class("mini"),
				g.Map(b.Pieces, func(s count.PieceShare) g.Node {
					return h.Li(h.Span(h.B(g.Text(number(s.Count))), g.Text(" for "+s.Piece.Name),
						Small(sizedTo(f, b.SizeIn, s.ToIn))))
				})),
			h.P(h.Class("formula"),
				g.Textf("%s needed + %s spare = %s", number(b.Need), number(b.Spares), number(b.Buy))),
			Soft("Enough spares in "+figure(j.Brief.SurePct, 1)+" of 100 jobs."),
			g.If(f.Owns(), h.P(h.A(h.Href(f.at(address.Figures)), g.Text("Use my own breakage"))))))
}
