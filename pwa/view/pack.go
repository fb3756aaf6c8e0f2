package view

import (
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/packing"
)

// Pack draws the pack list by bag. A tick says that all of a line is packed. Left shows only what is still to pack or
// to take out.
func Pack(f Frame, j job.Job, p plan.Plan, left bool) g.Node {
	packed, all := 0, 0
	for _, bag := range p.Pack {
		done, total := bagDone(bag)
		packed, all = packed+done, all+total
	}
	if all == 0 {
		return these(
			Heading(untitled(j.Brief.Title), "Pack"),
			Empty("Nothing to pack yet",
				"The pack list grows from the pieces: balloons with spares, ties, tools, frames, each in the bag it travels in.",
				"", g.If(f.Edits(), ButtonLink(f.at("pieces/new"), "go", fixed("{plus}Add a piece")))),
		)
	}
	return these(
		Heading(untitled(j.Brief.Title), "Pack", PrintButton()),
		el(`div class="progressline"`, Big(strconv.Itoa(packed), "of "+strconv.Itoa(all)+" lines packed"),
			meter(packed, all)),
		filters("Which lines", filter{f.at("pack"), "All", !left}, filter{f.at("pack") + "?left=1", "What is left", left}),
		g.If(left && packed == all, fixed(`<p class="alldone">{tick}All packed. Nothing is left on the kitchen table.</p>`)),
		el(`div class="bags"`, each(len(p.Pack), func(i int) g.Node { return packBag(f, p.Pack[i], left) })),
	)
}

type filter struct {
	href, label string
	on          bool
}

func filters(label string, list ...filter) g.Node {
	return html(`<nav class="filters" aria-label="$">{}</nav>`, texts{label},
		each(len(list), func(i int) g.Node {
			x := list[i]
			return html(`<a href="$"{}>$</a>`, texts{x.href, x.label}, g.If(x.on, h.Aria("current", "true")))
		}))
}

// meter draws how much of a whole is done as a plain bar; the figure stands beside it.
func meter(done, all int) g.Node {
	width := 0.0
	if all > 0 {
		width = 320 * float64(min(max(done, 0), all)) / float64(all)
	}
	return html(`<svg class="meter" viewBox="0 0 320 10" preserveAspectRatio="none" aria-hidden="true" focusable="false">
		<rect class="span" width="320" height="10"></rect>
		<rect class="work" width="$" height="10"></rect></svg>`, texts{figure(width, 1)})
}

func bagDone(bag packing.Bag) (done, all int) {
	for _, line := range bag.Lines {
		if line.More() == 0 {
			done++
		}
	}
	return done, len(bag.Lines)
}

func packBag(f Frame, bag packing.Bag, left bool) g.Node {
	var rows []g.Node
	for _, line := range bag.Lines {
		if !left || line.More() != 0 {
			rows = append(rows, packLine(f, line))
		}
	}
	if len(rows) == 0 {
		return nothing
	}
	done, all := bagDone(bag)
	return html(`<section class="panel bag" id="$">
		<div class="panelhead"><h2>{pack}$</h2><span class="soft">$ of $</span></div>
		<ul class="list inset">{}</ul></section>`, texts{domID("bag", bag.Key), bag.Name, strconv.Itoa(done), strconv.Itoa(all)},
		these(rows...))
}

func packLine(f Frame, l packing.Line) g.Node {
	on := l.Need > 0 && l.Have == l.Need
	deed := Deed{Act: "pack", Entity: l.Key, N: Amount(l.Need)}
	label := "Pack " + l.Name
	switch {
	case on:
		deed, label = Deed{Act: "unpack", Entity: l.Key, N: Amount(0)}, "Take out "+l.Name
	case l.Have > l.Need:
		deed, label = Deed{Act: "unpack", Entity: l.Key, N: Amount(l.Need)}, "Take "+number(l.Have-l.Need)+" out of "+l.Name
	}
	return html(`<li id="$" class="tickrow" data-row{}>
		{}
		<details class="some">
			<summary>
				<span class="rowtext">
					<span class="rowtitle colourname">{}$</span>
					{}{}</span>
				<span class="rowfigure">${}</span>
				{open}</summary>
			{}</details></li>`, texts{domID("row", l.Key), l.Name, number(l.Need)},
		set(on, "data-on"), TickButton(f, on, deed, label),
		g.Iff(l.Colour != nil, func() g.Node { return Swatch(*l.Colour) }),
		packDifference(l),
		g.If(l.Reason != "" || l.Kit, txt(`span class="soft"`, packReason(l))),
		g.If(l.Unit != "", txt(`span class="soft unit"`, l.Unit)),
		packSome(f, l, "pack", "are packed", "Who packed it", l.Have))
}

// packReason says why a line is on the list, and whether the thing comes home again.
func packReason(l packing.Line) string {
	why := capital(l.Reason)
	if !l.Kit || l.Need == 0 {
		return why
	}
	if why == "" {
		return "Comes home again"
	}
	return why + " · comes home again"
}

// packDifference says what changed since the line was packed.
func packDifference(l packing.Line) g.Node {
	switch more := l.More(); {
	case l.Need == 0 && l.Have > 0:
		return html(`<span class="delta">{undo}No longer needed: take $ out</span>`, texts{number(l.Have)})
	case more < 0:
		return html(`<span class="delta">{undo}Take $ out: $ are packed</span>`, texts{number(-more), number(l.Have)})
	case more > 0 && l.Have > 0:
		return html(`<span class="delta">{plus}$ more: $ are packed</span>`, texts{number(more), number(l.Have)})
	}
	return nothing
}

// packSome draws the field for a part of a line, and the way to its history.
func packSome(f Frame, l packing.Line, act, are, who string, have int) g.Node {
	id := domID("some", l.Key)
	return html(`<div class="opened">
		{}
		{}
		<p><a class="plainlink" href="$?e=$">{history}$<span class="vh">: $</span></a></p></div>`, texts{f.at("history"), l.Key, who, l.Name},
		DeedForm(
			f,
			Deed{Act: act, Entity: l.Key, Spot: "-some"},
			"inline",
			html(`<label for="$">Only some? How many $<span class="vh"> of $</span></label>`, texts{id, are, l.Name}),
			html(`<input id="$" type="text" name="$" inputmode="numeric" autocomplete="off" required value="$">`,
				texts{id, FieldAmount, strconv.Itoa(have)}),
			txt(`button type="submit"`, "Set"),
		),
		SourceMark(l.Source))
}
