package view

import (
	"fmt"
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/plan/packing"
	"garlandry/app/plan/task"
	"garlandry/pwa/address"
)

// FindCard returns the plan's card with the key.
func FindCard(p plan.Plan, key string) (task.Card, bool) {
	for _, c := range p.Cards {
		if c.Key == key {
			return c, true
		}
	}
	return task.Card{}, false
}

// CardPage draws one card large: title, progress, count or tick, steps, cautions, note. On a wide screen the list of
// cards stands beside it.
func CardPage(f Frame, j job.Job, p plan.Plan, c task.Card) g.Node {
	list := h.Nav(h.Aria("label", "Cards"),
		ListPanel(g.Map(p.Cards, func(other task.Card) g.Node {
			return h.Li(h.A(h.Class("row small"), h.Href(f.cardAt(other.Key)),
				g.If(other.Key == c.Key, h.Aria("current", "page")), g.If(other.Done, g.Attr("data-on")),
				RowText(other.Title,
					Small(fmt.Sprintf("%s · %s", placeTitle(other.Place), orElse(cardFacts(f, other), "done")))),
				g.If(other.Done, Icon("tick"))))
		})))
	return Beside(list,
		h.Div(h.Class("cardpage"), Heading(cardContext(p, c), c.Title), cardLarge(f, j, p, c), cardMore(f, j, c)))
}

func cardContext(p plan.Plan, c task.Card) string {
	context := placeTitle(c.Place)
	if pc, ok := findPiece(p, c.Piece); ok {
		context += " · " + pc.Piece.Name
	}
	return context
}

func findPiece(p plan.Plan, id string) (count.PieceCount, bool) {
	for _, pc := range p.Pieces {
		if pc.Piece.ID == id && id != "" {
			return pc, true
		}
	}
	return count.PieceCount{}, false
}

// cardLarge draws what one needs at work: the progress, the button, the steps, the cautions.
func cardLarge(f Frame, j job.Job, p plan.Plan, c task.Card) g.Node {
	cluster := cardCluster(f, j, p, c)
	return g.Group{
		jobShades(j),
		PanelOf("doing", "", "", h.ID("doing"), g.Attr("data-row"), g.If(c.Done, g.Attr("data-on")),
			g.Iff(c.Count > 0, func() g.Node { return says(number(c.Made) + " of " + countedOf(c)) }),
			cardPicture(f, p, c),
			g.If(f.Cluster != "", cluster),
			waitsFirst(f, c),
			clockLine(f, c),
			g.If(c.Gone, Notice(Changed, "undo", "The plan changed: no longer needed.")),
			countSoFar(c),
			beyond(c),
			stood(c),
			cardButton(f, j, p, c),
			g.If(!c.Done, h.P(h.Class("soft facts-line"), g.Text(cardEffort(c, c.Left())))),
			g.If(f.Cluster == "", foldedCluster(cluster))),
		cardKit(f, j, p, c),
		kindTally(f, p, c),
		cardSteps(c),
		Cautions(c.Cautions),
	}
}

// countSoFar says how many of a count are made. A full card says so.
func countSoFar(c task.Card) g.Node {
	switch {
	case c.Count <= 0:
		return nil
	case c.Full():
		return Big("All "+number(c.Count), countedWord(c))
	}
	return Big(number(c.Made), "of "+countedOf(c))
}

func waitsFirst(f Frame, c task.Card) g.Node {
	if len(c.Waits) == 0 || c.Done {
		return nil
	}
	return Notice(Waits, "wait", "Waits for: "+strings.Join(c.Waits, ", ")+".")
}

// cardPicture draws the card's piece as far as it is: what is made or put up is strong, the rest faint.
func cardPicture(f Frame, p plan.Plan, c task.Card) g.Node {
	pc, known := findPiece(p, c.Piece)
	if !known {
		return nil
	}
	v := frontOfProgress(p, pc, onCard, c.Count > 0)
	v.Person = true
	if at, has := clusterAt(f, &pc, layerAbout(&pc, c)); has {
		at.mark(&v, p.Look(&pc, 0))
	}
	return h.Div(h.Class("picture"), v.Draw())
}

func cardButton(f Frame, j job.Job, p plan.Plan, c task.Card) g.Node {
	switch {
	case c.Count > 0:
		tally := tallyOf(f, j, c)
		tally.Then = nextUp(f, p, c)
		return TallyPad(f, tally)
	case c.Done:
		return g.Group{
			h.Div(h.Class("isdone"),
				Notice(AllDone, "tick", TickWord(c.Key)+doneBy(f, j, c.Key)),
				Act(f, Action{Act: "untick", Entity: c.Key}, "quiet", Icon("undo"), g.Text("Not done after all"))),
			nextUp(f, p, c)}
	}
	return Act(f, Action{Act: "tick", Entity: c.Key}, "go", g.Group{Icon("tick"), g.Text(TickWord(c.Key))})
}

// nextUp draws the button that goes on from a finished card to the next one for this person.
func nextUp(f Frame, p plan.Plan, c task.Card) g.Node {
	if c.Gone {
		return nil
	}
	next, found := f.nextCard(p)
	if !found || next.Key == c.Key {
		for _, ready := range ReadyCards(p.Cards) {
			if found = ready.Key != c.Key; found {
				next = ready
				break
			}
		}
	}
	if !found {
		return ButtonLink(f.at(address.Cards), Primary, h.ID("next-up"), g.Text(labelSeeCards))
	}
	return ButtonLink(f.cardAt(next.Key), Primary, h.ID("next-up"), g.Text("Next: "+next.Title))
}

// doneBy says who ticked a card and when, as a continuation of [TickWord].
func doneBy(f Frame, j job.Job, key string) string {
	readings := j.State.Register(key, "done").Readings
	if len(readings) == 0 {
		return ""
	}
	return " by " + authorName(f.Role, readings[0].Author) + ", " + when(f, readings[0].Stamp)
}

// tallyOf reads from the job's history who counted last on a card. Undo takes that back: an addition, or a count by
// eye.
func tallyOf(f Frame, j job.Job, c task.Card) Tally {
	t := Tally{Entity: c.Key, Made: c.Made, Total: c.Count, Unit: c.Unit}
	count, more := j.State.Tally(c.Key).Standing()
	if len(more) > 0 {
		last := more[len(more)-1]
		t.LastBy, t.LastAmount, t.LastOp, t.LastAt = authorName(f.Role, last.Author), int(last.Delta), last.ID, last.Effective
		if count == nil || count.Less(last.Stamp) {
			return t
		}
	}
	if count != nil {
		t.LastBy, t.LastAmount, t.LastOp, t.LastAt = authorName(f.Role, count.Author), int(count.N), count.ID, count.Effective
		t.LastCounted = true
	}
	return t
}

// authorName returns the name that stands beside what somebody did, for a reader of the role.
func authorName(reader job.Role, a job.Author) string {
	switch {
	case a.Name != "":
		return a.Name
	case a.Role == job.Owner && reader == job.Owner:
		return "You"
	case a.Role == job.Owner:
		return job.UnnamedOwner
	}
	return "Somebody"
}

// cardEffort says how many people a card takes, and how long what is left takes them.
func cardEffort(c task.Card, left float64) string {
	people, together := "One person", max(1, c.HandsMin)
	switch {
	case c.HandsMax > together:
		people = fmt.Sprintf("%d to %d people", together, c.HandsMax)
	case together > 1:
		people = fmt.Sprintf("%d people at once", together)
	}
	switch {
	case left <= 0:
		return people + "."
	case c.HandsMax > together:
		with := "for one"
		if together > 1 {
			with = fmt.Sprintf("with %d", together)
		}
		return people + ". About " + minutes(left/float64(together)) + " " + with + "."
	}
	return people + ". About " + minutes(left/float64(together)) + "."
}

// cardKinds draws what the clusters that a card makes are made of.
func cardKinds(p plan.Plan, c task.Card) g.Node {
	if pc, known := findPiece(p, c.Piece); known {
		if layer, makes := pc.LayerOf(c.Key); makes {
			laid, _ := pc.LaidOf(layer)
			return clusterKinds(laid, nil)
		}
	}
	return nil
}

// onOf returns what on a piece a card makes or puts on, nil for other cards.
func onOf(pc *count.PieceCount, key string) *count.LayerCount {
	for _, on := range pc.On() {
		if key == on.MakeKey || key == on.FixKey {
			return on
		}
	}
	return nil
}

func cardSteps(c task.Card) g.Node {
	if len(c.Steps) == 0 {
		return nil
	}
	return Panel("How", "", h.Ol(h.Class("steps"),
		g.Map(c.Steps, func(s string) g.Node { return h.Li(g.Text(s)) })))
}

// cardMore draws whose the card is, its note, its working and its history.
func cardMore(f Frame, j job.Job, c task.Card) g.Node {
	return g.Group{
		g.If(!c.Done || c.TakenBy != "", whosePanel(f, c)),
		tookPanel(f, j, c),
		cardNote(f, j, c),
		showMaths(f, c.Working),
		LinkBelow(fmt.Sprintf("%s?e=%s", f.at(address.History), c.Key), "history", labelHistory),
	}
}

// whosePanel says whose the card is, with a button to take it or give it back.
func whosePanel(f Frame, c task.Card) g.Node { return Panel("", "", h.ID("whose"), whose(f, c)) }

func whose(f Frame, c task.Card) g.Node {
	switch {
	case c.Gone:
		return h.P(g.Text("Nobody needs to do this."))
	case c.Done:
		return h.P(g.Text("Taken by " + c.TakenBy + "."))
	case c.TakenBy == "":
		return h.Div(h.Class("whose"),
			h.P(g.Text(labelUpForGrabs)),
			Act(f, Action{Act: "take", Entity: c.Key, Text: f.who(), TextGiven: true}, "", Icon("people"),
				g.Text("I'll do it")))
	case c.TakenBy == f.who():
		return h.Div(h.Class("whose"),
			h.P(g.Text("This one is yours.")),
			Act(f, Action{Act: "take", Entity: c.Key, TextGiven: true}, "quiet", g.Text("Give it back")))
	}
	return h.Div(h.Class("whose"),
		h.P(g.Text(c.TakenBy+" is on it.")),
		Act(f, Action{Act: "take", Entity: c.Key, Text: f.who(), TextGiven: true}, "quiet", g.Text("I'll take over")))
}

// CardSheet draws every card for paper: one a page, with tick boxes for each step and count.
func CardSheet(f Frame, j job.Job, p plan.Plan) g.Node {
	sheets := g.Group{g.Map(p.Cards, func(c task.Card) g.Node {
		if c.Gone {
			return g.Group{}
		}
		return h.Article(h.Class("sheet"),
			h.P(h.Class("context"), g.Textf("%s · %s", untitled(j.Brief.Title), cardContext(p, c))),
			h.H2(g.Text(c.Title)),
			sheetPicture(p, c),
			cardKinds(p, c),
			g.If(c.Count > 0, g.Group{Big(number(c.Count), orElse(c.Unit, "to make")), countBoxes(c.Count)}),
			h.P(g.Text(cardEffort(c, c.Minutes))),
			g.If(len(c.Waits) > 0, h.P(g.Text("After: "+strings.Join(c.Waits, ", ")+"."))),
			h.Ol(h.Class("steps boxes"),
				g.Map(c.Steps, func(s string) g.Node { return h.Li(g.Text(s)) }),
				g.Iff(c.Key == reloadKey, func() g.Node {
					lines := kitLines(p)
					return g.Map(lines, func(x packing.Line) g.Node {
						return h.Li(g.Textf("%s %s", number(x.Out()), x.Name))
					})
				})),
			g.If(c.Note != "", h.P(h.Class("note"), g.Text("Note: "+c.Note))),
			Cautions(c.Cautions),
			h.P(h.Class("signed"), g.Text("Done by ____________________   at ________")))
	})}
	return g.Group{
		jobShades(j),
		onPaperPage(LabelPaper, f.at(address.Cards), "Back to the cards", append(sheets, buildSheets(f, j, p, "")...)),
	}
}

// sheetPicture draws the piece that a card makes or puts up as it will be.
func sheetPicture(p plan.Plan, c task.Card) g.Node {
	pc, known := findPiece(p, c.Piece)
	on := onOf(&pc, c.Key)
	if !known || (on == nil || on.ID == "") && c.Key != pc.MakeKey && c.Key != pc.AheadKey && c.Key != pc.FixKey {
		return nil
	}
	return h.Div(h.Class("cover"), Front{Look: p.Look(&pc, onPaper), Person: true}.Draw())
}

// boxesDrawn is the most boxes a sheet has; a longer count gets boxes of five.
const boxesDrawn = 120

// countBoxes draws a box to cross for each one to make, in rows of ten.
func countBoxes(n int) g.Node {
	each := 1
	if n > boxesDrawn {
		each = 5
	}
	boxes := (n + each - 1) / each
	if boxes <= 0 {
		return nil
	}
	if boxes > 2*boxesDrawn {
		return h.P(g.Text("Too many to tick here: count on another sheet."))
	}
	list := make([]g.Node, 0, boxes)
	for i := range boxes {
		x, y := i%10*20+i%10/5*8, i/10*20
		list = append(list,
			g.El("rect", g.Attr("x", strconv.Itoa(x+1)), g.Attr("y", strconv.Itoa(y+1)), h.Width("16"),
				h.Height("16")))
	}
	rows := (boxes + 9) / 10
	return g.Group{
		g.If(each > 1, Soft(fmt.Sprintf("Each box is %d.", each))),
		h.SVG(h.Class("countboxes"), g.Attr("viewBox", "0 0 208 "+strconv.Itoa(rows*20)), h.Width("416"),
			h.Height(strconv.Itoa(rows*40)), h.Aria("hidden", "true"), g.Group(list)),
	}
}
