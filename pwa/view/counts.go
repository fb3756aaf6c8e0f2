package view

import (
	"strconv"
	"strings"

	g "maragu.dev/gomponents"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/calc/measure"
)

// Counts draws what the job takes: clusters by piece, balloons by size and colour, ties. Each figure opens its working.
func Counts(f Frame, j job.Job, p plan.Plan) g.Node {
	if len(p.Pieces) == 0 {
		return these(
			Heading(untitled(j.Brief.Title), "Counts"),
			Empty("Nothing to count yet",
				"Once there is a piece, its clusters, balloons and ties stand here, with spares and the working behind each figure.",
				"", g.If(f.Edits(), ButtonLink(f.at("pieces/new"), "go", fixed("{plus}Add a piece")))),
		)
	}
	clusters, balloons, buy := 0, 0, 0
	for _, pc := range p.Pieces {
		clusters += pc.Clusters + pc.Accents
	}
	for _, line := range p.Balloons {
		balloons += line.Need
		buy += line.Buy
	}
	return these(
		Heading(untitled(j.Brief.Title), "Counts", ButtonLink(f.at("shop"), "", fixed("{pack}Shop")), PrintButton()),
		el(`div class="totals"`, Big(number(clusters), plural(clusters, "cluster")),
			Big(number(balloons), plural(balloons, "balloon")), Big(number(p.Ties), plural(p.Ties, "tie"))),
		html(`<div class="columns">
			<div>{}</div>
			<div>{}{}</div></div>`, nil, clustersByPiece(f, p), balloonsBySize(f, j, p, buy), ties(p)),
	)
}

func plural(n int, noun string) string {
	if n == 1 {
		return noun
	}
	return noun + "s"
}

func clustersByPiece(f Frame, p plan.Plan) g.Node {
	return Panel("Clusters by piece", "",
		el(`div class="countlist"`, each(len(p.Pieces), func(i int) g.Node { return pieceCount(f, p.Pieces[i]) })))
}

func pieceCount(f Frame, pc count.PieceCount) g.Node {
	n, unit := pc.Clusters, plural(pc.Clusters, "cluster")
	if n == 0 {
		n, unit = pc.Balloons, plural(pc.Balloons, "balloon")
	}
	if pc.Accents > 0 {
		unit += " and " + Many(pc.Accents, "accent")
	}
	return html(`<details class="count" id="$">
		<summary><b class="n">$</b><span class="rowtext"><span class="soft">$</span><span class="rowtitle">$</span></span>{open}</summary>
		<div class="opened">
			<dl class="facts">
				{}
				{}
				{}
				{}
				{}
				{}</dl>
			{}
			{}
			{}</div></details>`, texts{domID("count", pc.Piece.ID), number(n), unit, pc.Piece.Name},
		g.If(pc.LengthMM > 0, Fact("Length", measure.FormatLength(pc.LengthMM, f.Units))),
		g.If(len(pc.Recipe) > 0, Fact("Recipe", pc.Recipe.String())),
		g.If(pc.Duplets > 0, Fact("Duplets", number(pc.Duplets))),
		Fact("Balloons", number(pc.Balloons)),
		g.If(pc.Accents > 0, Fact("Accent clusters", number(pc.Accents)+", "+number(pc.AccentBalloons)+" balloons")),
		Fact("Ties", number(pc.Ties)), sections(f, pc.Sections), pieceBalloons(f, pc.By), workingOpen(f, pc.Working))
}

func sections(f Frame, list []count.Section) g.Node {
	if len(list) < 2 {
		return nothing
	}
	parts := make([]string, len(list))
	for i, s := range list {
		parts[i] = number(s.Clusters) + " clusters (" + measure.FormatLength(s.LengthMM, f.Units) + ")"
	}
	return txt("p", "Carried in "+strconv.Itoa(len(list))+" sections: "+strings.Join(parts, ", ")+".")
}

func pieceBalloons(f Frame, by []count.PieceBalloons) g.Node {
	if len(by) == 0 {
		return nothing
	}
	return el(`ul class="mini"`, each(len(by), func(i int) g.Node {
		b := by[i]
		return html(`<li>{}<span><b>$</b> $ $<span class="soft">$</span></span></li>`,
			texts{number(b.Count), b.Colour.Name, inches(b.SizeIn), sizedTo(f, b.SizeIn, b.ToIn)}, Swatch(b.Colour))
	}))
}

func sizedTo(f Frame, sizeIn int, toIn float64) string {
	if toIn <= 0 {
		return ""
	}
	return ", sized to " + measure.FormatSmallLength(toIn*measure.MMPerInch, f.Units)
}

// workingOpen draws a working's steps where the figure is open already.
func workingOpen(f Frame, lines []figures.Line) g.Node {
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
		groups = append(
			groups,
			html(`<h3 class="sizehead">$<span class="soft">$ to buy</span></h3>`, texts{inches(size), number(total)}),
			el(`div class="countlist balloons"`,
				each(i-first, func(n int) g.Node { return balloonLine(f, j, p.Balloons[first+n]) })),
		)
	}
	if len(groups) == 0 {
		return nothing
	}
	return Panel(
		"Balloons to buy",
		number(buy)+" with spares",
		fixed(
			`<div class="balloonhead" aria-hidden="true"><span></span><span>need</span><span>spare</span><span>buy</span><span></span></div>`,
		),
		these(groups...),
	)
}

func balloonLine(f Frame, j job.Job, b count.BalloonLine) g.Node {
	n := func(class, label string, value int) g.Node {
		return html(`<span class="num $"><span class="vh">, $ </span>$</span>`, texts{class, label, number(value)})
	}
	return html(`<details class="count balloon-line" id="$">
		<summary><span class="colourname">{}<span>${}</span></span>
			{}{}{}{open}</summary>
		<div class="opened">
			<ul class="mini">{}</ul>
			<p class="formula">$ needed + $ spare = $</p>
			<p class="soft">As many spares as leave you enough $ times in 100 when some burst.</p>
			{}</div></details>`, texts{domID("count", b.Key), b.Colour.Name, number(b.Need), number(b.Spares), number(b.Buy), figure(j.Brief.SurePct, 1)},
		Swatch(b.Colour),
		g.If(b.Colour.Finish != "" && b.Colour.Finish != "standard", txt(`span class="soft"`, " "+b.Colour.Finish)),
		n("", "need", b.Need), n("", "spares", b.Spares), n("buy", "buy", b.Buy),
		each(len(b.Pieces), func(i int) g.Node {
			s := b.Pieces[i]
			return html(`<li><span><b>$</b> for $<span class="soft">$</span></span></li>`,
				texts{number(s.Count), s.Piece.Name, sizedTo(f, b.SizeIn, s.ToIn)})
		}),
		g.If(f.Owns(), html(`<p><a href="$">Use my own breakage</a></p>`, texts{f.at("figures")})))
}

func ties(p plan.Plan) g.Node {
	return Panel("Ties", "", Big(number(p.Ties), "260s used as ties, without spares"),
		txt(`p class="soft"`, "With spares they stand on the pack list."))
}
