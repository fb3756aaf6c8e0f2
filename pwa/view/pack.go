package view

import (
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan"
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
		return g.Group{Heading(untitled(j.Brief.Title), "Pack"),
			Empty("Nothing to pack yet", "The pack list grows from the pieces: balloons with spares, ties, tools, frames, each in the bag it travels in.", "",
				g.If(f.Edits(), ButtonLink(f.at("pieces/new"), "go", Icon("plus"), g.Text("Add a piece"))))}
	}
	return g.Group{
		Heading(untitled(j.Brief.Title), "Pack", printButton()),
		el(`div class="progressline"`, Big(strconv.Itoa(packed), "of "+strconv.Itoa(all)+" lines packed"), meter(packed, all)),
		filters("Which lines", filter{f.at("pack"), "All", !left}, filter{f.at("pack") + "?left=1", "What is left", left}),
		g.If(left && packed == all, el(`p class="alldone"`, Icon("tick"), g.Text("All packed. Nothing is left on the kitchen table."))),
		el(`div class="bags"`, g.Map(p.Pack, func(bag plan.Bag) g.Node { return packBag(f, bag, left) })),
	}
}

type filter struct {
	href, label string
	on          bool
}

func filters(label string, list ...filter) g.Node {
	return el(`nav class="filters"`, h.Aria("label", label), g.Map(list, func(x filter) g.Node {
		return el("a", h.Href(x.href), g.If(x.on, h.Aria("current", "true")), g.Text(x.label))
	}))
}

// meter draws how much of a whole is done as a plain bar; the figure stands beside it.
func meter(done, all int) g.Node {
	width := 0.0
	if all > 0 {
		width = 320 * float64(min(max(done, 0), all)) / float64(all)
	}
	return el(`svg class="meter" viewBox="0 0 320 10" preserveAspectRatio="none" aria-hidden="true" focusable="false"`,
		el(`rect class="span" width="320" height="10"`),
		el(`rect class="work"`, g.Attr("width", figure(width, 1)), g.Attr("height", "10")))
}

func bagDone(bag plan.Bag) (done, all int) {
	for _, line := range bag.Lines {
		if line.More() == 0 {
			done++
		}
	}
	return done, len(bag.Lines)
}

func packBag(f Frame, bag plan.Bag, left bool) g.Node {
	var rows []g.Node
	for _, line := range bag.Lines {
		if !left || line.More() != 0 {
			rows = append(rows, packLine(f, line))
		}
	}
	if len(rows) == 0 {
		return g.Group{}
	}
	done, all := bagDone(bag)
	return el(`section class="panel bag"`, h.ID(domID("bag", bag.Key)),
		el(`div class="panelhead"`, el("h2", Icon("pack"), g.Text(bag.Name)), txt(`span class="soft"`, strconv.Itoa(done)+" of "+strconv.Itoa(all))),
		el(`ul class="list inset"`, g.Group(rows)))
}

func packLine(f Frame, l plan.PackLine) g.Node {
	on := l.Need > 0 && l.Have == l.Need
	deed := Deed{Act: "pack", Entity: l.Key, N: Amount(l.Need)}
	label := "Pack " + l.Name
	switch {
	case on:
		deed, label = Deed{Act: "unpack", Entity: l.Key, N: Amount(0)}, "Take out "+l.Name
	case l.Have > l.Need:
		deed, label = Deed{Act: "unpack", Entity: l.Key, N: Amount(l.Need)}, "Take "+number(l.Have-l.Need)+" out of "+l.Name
	}
	return el("li", h.ID(domID("row", l.Key)), h.Class("tickrow"), g.Attr("data-row"), g.If(on, g.Attr("data-on")),
		TickButton(f, on, deed, label),
		el(`details class="some"`,
			el("summary",
				el(`span class="rowtext"`,
					el(`span class="rowtitle colourname"`, g.Iff(l.Colour != nil, func() g.Node { return Swatch(*l.Colour) }), g.Text(l.Name)),
					packDifference(l), g.If(l.Reason != "" || l.Kit, txt(`span class="soft"`, packReason(l)))),
				el(`span class="rowfigure"`, g.Text(number(l.Need)), g.If(l.Unit != "", txt(`span class="soft unit"`, l.Unit))),
				Icon("open")),
			packSome(f, l)))
}

// packReason says why a line is on the list, and whether the thing comes home again.
func packReason(l plan.PackLine) string {
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
func packDifference(l plan.PackLine) g.Node {
	switch more := l.More(); {
	case l.Need == 0 && l.Have > 0:
		return el(`span class="delta"`, Icon("undo"), g.Text("No longer needed: take "+number(l.Have)+" out"))
	case more < 0:
		return el(`span class="delta"`, Icon("undo"), g.Text("Take "+number(-more)+" out: "+number(l.Have)+" are packed"))
	case more > 0 && l.Have > 0:
		return el(`span class="delta"`, Icon("plus"), g.Text(number(more)+" more: "+number(l.Have)+" are packed"))
	}
	return g.Group{}
}

// packSome draws the field for a part of a line, and the way to its history.
func packSome(f Frame, l plan.PackLine) g.Node {
	id := domID("some", l.Key)
	return el(`div class="opened"`,
		DeedForm(f, Deed{Act: "pack", Entity: l.Key, Spot: "-some"}, "inline",
			el("label", h.For(id), g.Text("Only some? How many are packed"), txt(`span class="vh"`, " of "+l.Name)),
			el("input", h.ID(id), h.Type("text"), h.Name(FieldAmount), g.Attr("inputmode", "numeric"), h.AutoComplete("off"), h.Required(), h.Value(strconv.Itoa(l.Have))),
			txt(`button type="submit"`, "Set")),
		SourceMark(l.Source),
		el("p", el(`a class="plainlink"`, h.Href(f.at("history")+"?e="+l.Key), Icon("history"), g.Text("Who packed it"), txt(`span class="vh"`, ": "+l.Name))))
}
