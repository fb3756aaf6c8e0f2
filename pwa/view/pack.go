package view

import (
	"fmt"
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/plan/packing"
	"garlandry/pwa/address"
)

// packWords are the words of the pack list: for what goes into a car, or for what must be at hand.
type packWords struct{ title, done, left, all, tick string }

// packWordsOf returns the words for a job whose things travel, or for one where they are made.
func packWordsOf(j job.Job) packWords {
	if !count.Travels(j) {
		return packWords{"Have at hand", "at hand", "Still to get", "All at hand.", "At hand"}
	}
	return packWords{"Pack", "packed", "Still to pack", "All packed.", "Packed"}
}

// Pack draws the pack list by bag. A tick says that all of a line is packed, or at hand where nothing travels. Left
// shows only what is still to pack or to take out. Lines that somebody set aside as not needed come last.
func Pack(f Frame, j job.Job, p plan.Plan, left bool) g.Node {
	words := packWordsOf(j)
	packed, all, lines := 0, 0, 0
	for _, bag := range p.Pack {
		done, total := bagDone(bag)
		packed, all, lines = packed+done, all+total, lines+len(bag.Lines)
	}
	if lines == 0 {
		return g.Group{
			jobHeading(j, words.title),
			Empty("Nothing to pack yet",
				"The pack list comes from the pieces: balloons, ties, tools and frames, by bag.",
				"",
				g.If(f.Edits(), ButtonLink(f.at(address.NewPiece), "go", Icon("plus"), g.Text(labelAddPiece)))),
		}
	}
	fits := packFits(f, j)
	return g.Group{
		jobHeading(j, words.title, PrintButton()),
		h.Div(h.Class("progressline"),
			Big(strconv.Itoa(packed), "of "+strconv.Itoa(all)+" lines "+words.done),
			meter(packed, all)),
		filters("Which lines", filter{f.at(address.Pack), "All", !left},
			filter{f.at(address.Pack) + "?left=1", words.left, left}),
		g.If(left && packed == all, Notice(AllDone, "tick", words.all)),
		findField(f, "a line", shownLines(p.Pack, fits, left), shownLines(p.Pack, nil, left), screenful),
		h.Div(h.Class("bags"), g.Map(p.Pack, func(x packing.Bag) g.Node { return packBag(f, words, x, fits, left) })),
		unneededLines(f, p.Pack, fits, left),
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

// bagDone counts the lines of a bag that are packed, and all that are needed.
func bagDone(bag packing.Bag) (done, all int) {
	for _, line := range bag.Lines {
		switch {
		case line.Unneeded:
			continue
		case line.More() == 0:
			done++
		}
		all++
	}
	return done, all
}

func packBag(f Frame, words packWords, bag packing.Bag, fits lineFits, left bool) g.Node {
	var rows []g.Node
	for _, line := range bag.Lines {
		if !line.Unneeded && shownLine(line, left) && fits(bag, line) {
			rows = append(rows, packLine(f, words, line))
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

func packLine(f Frame, words packWords, l packing.Line) g.Node {
	on := l.Need > 0 && l.Have == l.Need
	action := Action{Act: "pack", Entity: l.Key, N: Amount(l.Need)}
	label := words.tick + ": " + l.Name
	switch {
	case on:
		action = Action{Act: "unpack", Entity: l.Key, N: Amount(0)}
	case l.Have > l.Need:
		action = Action{Act: "unpack", Entity: l.Key, N: Amount(l.Need)}
		label = "Take " + number(l.Have-l.Need) + " out: " + l.Name
	}
	return h.Li(h.ID(domID("row", l.Key)), h.Class("tickrow"), g.Attr("data-row"), g.If(on, g.Attr("data-on")),
		TickButton(f, on, action, label),
		h.Details(h.Class("some"),
			h.Summary(h.Span(h.Class("rowtext"),
				h.Span(h.Class("rowtitle colourname"),
					g.Iff(l.Colour != nil, func() g.Node { return Swatch(*l.Colour) }),
					g.Text(l.Name)),
				packDifference(words, l),
				g.If(on, Small(words.tick+" "+number(l.Have)+" of "+number(l.Need))),
				g.If(l.Reason != "" || l.Kit, Small(packReason(l)))),
				RowFigure(number(l.Need), l.Unit),
				Icon("open")),
			packSome(f, l, "pack", "are "+words.done, l.Have,
				g.If(l.Need > 0, notNeeded(f, l)))))
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
func packDifference(words packWords, l packing.Line) g.Node {
	switch more := l.More(); {
	case l.Need == 0 && l.Have > 0:
		return NoticeInRow(Changed, "undo", "No longer needed: take "+number(l.Have)+" out")
	case more < 0:
		return NoticeInRow(Changed, "undo",
			fmt.Sprintf("Take %s out: %s %s", number(-more), number(l.Have), words.done))
	case more > 0 && l.Have > 0:
		return NoticeInRow(Changed, "plus", fmt.Sprintf("%s more: %s %s", number(more), number(l.Have), words.done))
	}
	return nil
}

// packSome draws the field for a part of a line, what else can be done with it, and the way to its history.
func packSome(f Frame, l packing.Line, act, are string, have int, more ...g.Node) g.Node {
	return h.Div(h.Class("opened"),
		onlySome(f, l, act, are, have),
		SourceMark(l.Source),
		g.Group(more),
		h.P(PlainLink(f.at(address.History)+"?e="+l.Key, "history", labelHistory, ForReaders(": "+l.Name))))
}

// onlySome draws the field for a part of a line.
func onlySome(f Frame, l packing.Line, act, are string, have int) g.Node {
	return amountForm(f, Action{Act: act, Entity: l.Key, Spot: "-some"}, domID("some", l.Key), have,
		g.Text("Only some? How many "+are), ForReaders(" of "+l.Name))
}
