package view

import (
	"fmt"
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/task"
	"garlandry/pwa/address"
)

// Which cards a list shows.
const (
	AllCards  = ""
	MineCards = "mine"
	FreeCards = "up for grabs"
)

// shownAs is the query of an address that shows some cards.
var shownAs = map[string]string{MineCards: "?show=mine", FreeCards: "?show=free"}

var places = []struct {
	place       task.Place
	title, icon string
}{
	{
		task.Home,
		"At home",
		"home",
	}, {task.Load, "Loading", "car"}, {task.Site, "On site", "site"}, {task.TakeDown, "Take-down", "away"},
}

func placeTitle(p task.Place) string {
	for _, x := range places {
		if x.place == p {
			return x.title
		}
	}
	return string(p)
}

// ReadyCards lists the cards that can be done now: not done, nothing before them open, in working order. Take-down is
// among them only when nothing else is ready.
func ReadyCards(cards []task.Card) []task.Card {
	var ready, down []task.Card
	for _, c := range cards {
		switch {
		case c.Done || c.Gone || len(c.Waits) > 0:
		case c.Place == task.TakeDown:
			down = append(down, c)
		default:
			ready = append(ready, c)
		}
	}
	if len(ready) == 0 {
		return down
	}
	return ready
}

// Cards draws the cards by place. Show is [AllCards], [MineCards] or [FreeCards].
func Cards(f Frame, j job.Job, p plan.Plan, show string) g.Node {
	done, all := doneCards(p.Cards)
	if len(p.Cards) == 0 {
		return g.Group{
			jobHeading(j, "Cards"),
			Empty(labelNoCard,
				"A card is one task: what to make, how many and how. Cards come from the pieces.",
				"For example: Make 48 clusters for the door garland.",
				g.If(f.Edits(), ButtonLink(f.at(address.NewPiece), "go", Icon("plus"), g.Text(labelAddPiece)))),
		}
	}
	f.Path += shownAs[show] // where forms come back to
	return g.Group{
		jobHeading(j, "Cards"),
		h.Div(h.Class("progressline"),
			Big(strconv.Itoa(done), "of "+strconv.Itoa(all)+" cards done"),
			meter(done, all)),
		filters("Which cards", filter{f.at(address.Cards), "All", show == AllCards},
			filter{f.at(address.Cards) + shownAs[MineCards], "Mine", show == MineCards},
			filter{f.at(address.Cards) + shownAs[FreeCards], labelUpForGrabs, show == FreeCards}),
		cardPlaces(f, p.Cards, show),
		goneCards(f, p.Cards),
		LinkBelow(f.at(address.Cards)+"?sheet=1", "print", "Print all cards"),
	}
}

func (f Frame) shows(c task.Card, show string) bool {
	switch show {
	case MineCards:
		return c.TakenBy != "" && c.TakenBy == f.who()
	case FreeCards:
		return c.TakenBy == "" && !c.Done
	}
	return true
}

// who is the name that stands beside what the visitor takes.
func (f Frame) who() string {
	if f.Name != "" {
		return f.Name
	}
	if f.Role == job.Owner {
		return job.UnnamedOwner
	}
	return "Helper"
}

// noCards and whyNoCards say that a list has no card, and what to do about it.
var (
	noCards    = map[string]string{MineCards: "Nothing is yours yet", FreeCards: "Nothing is up for grabs"}
	whyNoCards = map[string]string{
		MineCards: "Open a card and press “I'll do it”: everybody sees your name on it.",
		FreeCards: "Every open card has a name on it. Ask who wants a hand.",
	}
)

func cardPlaces(f Frame, cards []task.Card, show string) g.Node {
	var groups []g.Node
	for _, place := range places {
		var open, closed []g.Node
		done, all := 0, 0
		for _, c := range cards {
			if c.Place != place.place || c.Gone {
				continue
			}
			all++
			if c.Done {
				done++
			}
			switch {
			case !f.shows(c, show):
			case c.Done:
				closed = append(closed, cardRow(f, c, "list"))
			default:
				open = append(open, cardRow(f, c, "list"))
			}
		}
		if len(open)+len(closed) == 0 {
			continue
		}
		groups = append(groups, Panel("", "", h.ID("place-"+string(place.place)),
			PanelHead(place.icon, place.title, fmt.Sprintf("%d of %d", done, all)),
			g.If(len(open) > 0, List(g.Group(open))),
			g.If(len(closed) > 0,
				Disclosure("closed", strconv.Itoa(len(closed))+" done",
					g.If(len(open) == 0 && show == MineCards, g.Attr("open")),
					List(closed...)))))
	}
	if len(groups) == 0 {
		return Empty(noCards[show],
			whyNoCards[show],
			"", ButtonLink(f.at(address.Cards), "", g.Text("All cards")))
	}
	return h.Div(h.Class("places"), g.Group(groups))
}

// goneCards draws what was worked on but is no longer in the plan.
func goneCards(f Frame, cards []task.Card) g.Node {
	var rows []g.Node
	for _, c := range cards {
		if c.Gone {
			below := ""
			if made := max(c.Beyond, c.Made); made > 0 {
				below = number(made) + " made"
			}
			rows = append(rows, RowLink(domID("row", c.Key), f.cardAt(c.Key), c.Title, below, ""))
		}
	}
	if len(rows) == 0 {
		return nil
	}
	return Panel("No longer needed", "", List(g.Group(rows)))
}

func (f Frame) cardAt(key string) string { return f.at(address.Card, job.KeyPath(key)) }

// cardRow draws a card in a list: a tick, or how far a count is; the text opens the card. Spot tells apart two lists.
func cardRow(f Frame, c task.Card, spot string) g.Node {
	return h.Li(h.ID(domID("row-"+spot, c.Key)), h.Class("tickrow"), g.Attr("data-row"),
		g.If(c.Done, g.Attr("data-on")), g.If(len(c.Waits) > 0, g.Attr("data-waits")),
		cardTick(f, c, spot),
		h.A(h.Class("rowtext"), h.Href(f.cardAt(c.Key)),
			RowTitle(c.Title),
			Small(cardFacts(f, c)),
			g.If(len(c.Waits) > 0, NoticeInRow(Waits, "wait", "Waits for: "+someOf(c.Waits))),
			beyond(c),
			stood(c)),
		h.Span(h.Class("chevron"), Icon("open")))
}

func cardTick(f Frame, c task.Card, spot string) g.Node {
	if c.Count > 0 {
		return h.A(h.Class("ringlink"), h.Href(f.cardAt(c.Key)),
			h.Aria("label", fmt.Sprintf("%s: %d of %d", c.Title, c.Made, c.Count)), h.TabIndex("-1"),
			ring(c.Made, c.Count))
	}
	action, label := Action{Act: "tick", Entity: c.Key, Spot: "-" + spot}, TickWord(c.Key)+": "+c.Title
	if c.Done {
		action.Act = "untick"
	}
	return TickButton(f, c.Done, action, label)
}

// ring draws how much of a count is made as part of a circle, with the figure inside.
func ring(made, total int) g.Node {
	const round = 106.8 // circumference of the circle of 17
	part := round * float64(min(max(made, 0), total)) / float64(max(total, 1))
	return h.SVG(h.Class("countring"), g.Attr("viewBox", "0 0 44 44"), h.Aria("hidden", "true"),
		g.Attr("focusable", "false"),
		g.El("circle", h.Class("span"), g.Attr("cx", "22"), g.Attr("cy", "22"), g.Attr("r", "17")),
		g.El("circle", h.Class("work"), g.Attr("cx", "22"), g.Attr("cy", "22"), g.Attr("r", "17"),
			g.Attr("stroke-dasharray", fmt.Sprintf("%s %s", figure(part, 1), figure(round, 1))),
			g.Attr("transform", "rotate(-90 22 22)")),
		g.El("text", g.Attr("x", "22"), g.Attr("y", "26.5"), g.Attr("text-anchor", "middle"),
			g.Text(strconv.Itoa(made))))
}

// cardFacts says how many, how long with the people it needs, how many people, whose, in one line.
func cardFacts(f Frame, c task.Card) string {
	facts := workFacts(f, c)
	switch {
	case c.TakenBy == "" && !c.Done:
		facts = append(facts, "up for grabs")
	case c.TakenBy == f.who():
		facts = append(facts, "yours")
	case c.TakenBy != "":
		facts = append(facts, c.TakenBy)
	}
	return strings.Join(facts, " · ")
}

// workFacts says of a card how many, how long with the people it needs, how many people and when.
func workFacts(f Frame, c task.Card) (facts []string) {
	if c.Count > 0 {
		facts = append(facts, number(c.Made)+" of "+countedOf(c))
	}
	if left := c.Left(); left > 0 {
		facts = append(facts, minutes(left/float64(max(1, c.HandsMin))))
	}
	if c.HandsMin > 1 {
		facts = append(facts, strconv.Itoa(c.HandsMin)+" people")
	}
	if t, planned := f.Clock.Task(c.Key); planned {
		facts = append(facts, startWords(f.Clock, t))
	}
	return facts
}

func beyond(c task.Card) g.Node {
	if c.Beyond <= 0 {
		return nil
	}
	return NoticeInRow(Changed, "undo", number(c.Beyond)+" more than needed")
}

// stood says why a card that was ticked is open again.
func stood(c task.Card) g.Node {
	if c.Stood == "" {
		return nil
	}
	return NoticeInRow(Changed, "undo", c.Stood)
}

// someOf names the first of a list and how many more there are, so that a row stays a row.
func someOf(list []string) string {
	if len(list) <= 1 {
		return strings.Join(list, "")
	}
	return list[0] + " and " + strconv.Itoa(len(list)-1) + " more"
}
