package view

import (
	"fmt"
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/packing"
	"garlandry/pwa/address"
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
		return g.Group{
			jobHeading(j, "Pack"),
			Empty("Nothing to pack yet",
				"The pack list comes from the pieces: balloons, ties, tools and frames, by bag.",
				"",
				g.If(f.Edits(), ButtonLink(f.at(address.NewPiece), "go", Icon("plus"), g.Text(labelAddPiece)))),
		}
	}
	return g.Group{
		jobHeading(j, "Pack", PrintButton()),
		h.Div(h.Class("progressline"),
			Big(strconv.Itoa(packed), "of "+strconv.Itoa(all)+" lines packed"),
			meter(packed, all)),
		filters("Which lines", filter{f.at(address.Pack), "All", !left},
			filter{f.at(address.Pack) + "?left=1", "Still to pack", left}),
		g.If(left && packed == all, Notice(AllDone, "tick", "All packed.")),
		h.Div(h.Class("bags"), g.Map(p.Pack, func(x packing.Bag) g.Node { return packBag(f, x, left) })),
	}
}

type filter struct {
	href, label string
	on          bool
}

func filters(label string, list ...filter) g.Node {
	return h.Nav(h.Class("filters"), h.Aria("label", label),
		g.Map(list, func(x filter) g.Node {
			return h.A(h.Href(x.href), g.If(x.on, h.Aria("current", "true")), g.Text(x.label))
		}))
}

// meter draws how much of a whole is done as a plain bar; the figure stands beside it.
func meter(done, all int) g.Node {
	width := 0.0
	if all > 0 {
		width = 320 * float64(min(max(done, 0), all)) / float64(all)
	}
	return h.SVG(h.Class("meter"), g.Attr("viewBox", "0 0 320 10"), g.Attr("preserveAspectRatio", "none"),
		h.Aria("hidden", "true"), g.Attr("focusable", "false"),
		g.El("rect", h.Class("span"), h.Width("320"), h.Height("10")),
		g.El("rect", h.Class("work"), h.Width(figure(width, 1)), h.Height("10")))
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
		return nil
	}
	done, all := bagDone(bag)
	return PanelOf("bag", "", "", h.ID(domID("bag", bag.Key)),
		PanelHead("pack", bag.Name, fmt.Sprintf("%d of %d", done, all)),
		List(g.Group(rows)))
}

func packLine(f Frame, l packing.Line) g.Node {
	on := l.Need > 0 && l.Have == l.Need
	action := Action{Act: "pack", Entity: l.Key, N: Amount(l.Need)}
	label := "Pack " + l.Name
	switch {
	case on:
		action, label = Action{Act: "unpack", Entity: l.Key, N: Amount(0)}, "Take out "+l.Name
	case l.Have > l.Need:
		action = Action{Act: "unpack", Entity: l.Key, N: Amount(l.Need)}
		label = "Take " + number(l.Have-l.Need) + " out of " + l.Name
	}
	return h.Li(h.ID(domID("row", l.Key)), h.Class("tickrow"), g.Attr("data-row"), g.If(on, g.Attr("data-on")),
		TickButton(f, on, action, label),
		h.Details(h.Class("some"),
			h.Summary(h.Span(h.Class("rowtext"),
				h.Span(h.Class("rowtitle colourname"),
					g.Iff(l.Colour != nil, func() g.Node { return Swatch(*l.Colour) }),
					g.Text(l.Name)),
				packDifference(l),
				g.If(l.Reason != "" || l.Kit, Small(packReason(l)))),
				RowFigure(number(l.Need), l.Unit),
				Icon("open")),
			packSome(f, l, "pack", "are packed", l.Have)))
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
		return NoticeInRow(Changed, "undo", "No longer needed: take "+number(l.Have)+" out")
	case more < 0:
		return NoticeInRow(Changed, "undo",
			fmt.Sprintf("Take %s out: %s packed", number(-more), number(l.Have)))
	case more > 0 && l.Have > 0:
		return NoticeInRow(Changed, "plus", fmt.Sprintf("%s more: %s packed", number(more), number(l.Have)))
	}
	return nil
}

// packSome draws the field for a part of a line, and the way to its history.
func packSome(f Frame, l packing.Line, act, are string, have int) g.Node {
	id := domID("some", l.Key)
	return h.Div(h.Class("opened"),
		ActionForm(f, Action{Act: act, Entity: l.Key, Spot: "-some"}, "inline",
			h.Label(h.For(id), g.Text("Only some? How many "+are), ForReaders(" of "+l.Name)),
			h.Input(h.ID(id), h.Type("text"), h.Name(FieldAmount), g.Attr("inputmode", "numeric"),
				h.AutoComplete("off"), h.Required(), h.Value(strconv.Itoa(have))),
			Submit(Plain, g.Text("Set"))),
		SourceMark(l.Source),
		h.P(PlainLink(f.at(address.History)+"?e="+l.Key, "history", labelHistory, ForReaders(": "+l.Name))))
}
