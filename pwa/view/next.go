package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/task"
	"garlandry/pwa/address"
)

// NextCard returns the card that a person should do next: one of theirs that is ready, else a free one that is ready,
// else one of theirs that still waits. The second result is false if there is none.
func NextCard(p plan.Plan, name string) (task.Card, bool) {
	ready := ReadyCards(p.Cards)
	for _, c := range ready {
		if name != "" && c.TakenBy == name {
			return c, true
		}
	}
	for _, c := range ready {
		if c.TakenBy == "" {
			return c, true
		}
	}
	for _, c := range p.Cards {
		if !c.Done && !c.Gone && name != "" && c.TakenBy == name {
			return c, true
		}
	}
	return task.Card{}, false
}

// Next draws a helper's first page: their name, the next card with one big button. The rest is one tap away in the bar.
func Next(f Frame, j job.Job, p plan.Plan) g.Node {
	greeting := untitled(j.Brief.Title)
	if clock := Clock(j.Brief.Doors); clock != "" {
		greeting += " · doors " + clock
	}
	c, found := f.nextCard(p)
	if !found {
		return g.Group{Heading(greeting, hello(f)), offlineLine(f), nothingNext(f, p), installOffer(f)}
	}
	return g.Group{
		Heading(greeting, hello(f)),
		offlineLine(f),
		Columns(g.Group{
			h.Class("cardpage"),
			h.H2(h.Class("cardtitle"),
				h.Span(h.Class("context"), g.Text(cardContext(p, c))),
				h.A(h.Href(f.cardAt(c.Key)), g.Text(c.Title))),
			cardLarge(f, j, p, c),
			cardNote(helperFrame(f), j, c),
		}, g.Group{whosePanel(f, c), afterThat(f, p, c), installOffer(f)}),
	}
}

func hello(f Frame) string {
	if f.Name == "" {
		return "Next for you"
	}
	return f.Name + ", next for you"
}

// helperFrame returns the frame of a helper. Nobody writes notes on this page.
func helperFrame(f Frame) Frame {
	f.Role = job.Helper
	return f
}

func nothingNext(f Frame, p plan.Plan) g.Node {
	done, all := doneCards(p.Cards)
	switch {
	case all == 0:
		return Empty(labelNoCard, "Your next task will show here.", "",
			ButtonLink(f.at(address.Pack), "", g.Text("The pack list")))
	case done == all:
		return Empty(labelDone, "Thank you.", "",
			ButtonLink(f.at(address.Cards), "", g.Text("See them all")))
	}
	if later := f.comesLater(); later != "" {
		return Empty("Nothing for you just now", later, "", ButtonLink(f.at(address.Cards), "", g.Text(labelSeeCards)))
	}
	return Empty("Nothing up for grabs just now",
		"Every open card has a name on it or waits for another. Ask who wants a hand.", "",
		ButtonLink(f.at(address.Cards), "", g.Text(labelSeeCards)))
}

func afterThat(f Frame, p plan.Plan, c task.Card) g.Node {
	var rows []g.Node
	for _, other := range ReadyCards(p.Cards) {
		if other.Key != c.Key && (other.TakenBy == "" || other.TakenBy == f.who()) && len(rows) < 3 {
			rows = append(rows, cardRow(f, other, "after"))
		}
	}
	if len(rows) == 0 {
		return nil
	}
	return Panel("Or one of these", "", List(g.Group(rows)))
}
