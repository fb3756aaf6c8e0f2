package view

import (
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan"
)

// FindCard gives the plan's card with the key.
func FindCard(p plan.Plan, key string) (plan.Card, bool) {
	for _, c := range p.Cards {
		if c.Key == key {
			return c, true
		}
	}
	return plan.Card{}, false
}

// CardPage draws one card large: title, progress, count or tick, steps, cautions, note. On a wide screen the list of
// cards stands beside it.
func CardPage(f Frame, j job.Job, p plan.Plan, c plan.Card) g.Node {
	list := el(`nav aria-label="Cards"`, el(`ul class="list"`, g.Map(p.Cards, func(other plan.Card) g.Node {
		return el("li", el(`a class="row small"`, h.Href(f.cardAt(other.Key)), g.If(other.Key == c.Key, h.Aria("current", "page")), g.If(other.Done, g.Attr("data-on")),
			el(`span class="rowtext"`, txt(`span class="rowtitle"`, other.Title), txt(`span class="soft"`, placeTitle(other.Place)+" · "+orElse(cardFacts(f, other), "done"))),
			g.If(other.Done, Icon("tick"))))
	})))
	return Beside(list, el(`div class="cardpage"`, Heading(cardContext(p, c), c.Title), cardLarge(f, j, p, c), cardMore(f, c)))
}

func cardContext(p plan.Plan, c plan.Card) string {
	context := placeTitle(c.Place)
	if pc, ok := findPiece(p, c.Piece); ok {
		context += " · " + pc.Piece.Name
	}
	return context
}

func findPiece(p plan.Plan, id string) (plan.PieceCount, bool) {
	for _, pc := range p.Pieces {
		if pc.Piece.ID == id && id != "" {
			return pc, true
		}
	}
	return plan.PieceCount{}, false
}

// cardLarge draws what a hand needs: how far, the button, the steps, the cautions.
func cardLarge(f Frame, j job.Job, p plan.Plan, c plan.Card) g.Node {
	return g.Group{
		el(`section class="panel doing" id="doing" data-row`, g.If(c.Done, g.Attr("data-on")),
			cardPicture(j, p, c),
			waitsFirst(f, c),
			g.If(c.Gone, el(`p class="delta"`, Icon("undo"), g.Text("The plan has changed: this card is not needed any more."))),
			g.If(c.Count > 0, Big(number(c.Made), "of "+number(c.Count)+" "+orElse(c.Unit, "made"))), beyond(c),
			cardButton(f, j, c),
			txt(`p class="soft facts-line"`, cardEffort(c, c.Left()))),
		cardSteps(c),
		Cautions(c.Cautions),
	}
}

func waitsFirst(f Frame, c plan.Card) g.Node {
	if len(c.Waits) == 0 || c.Done {
		return g.Group{}
	}
	return el(`p class="waits"`, Icon("wait"), g.Text("Comes after: "+strings.Join(c.Waits, ", ")+"."))
}

// cardPicture draws the card's piece, filled as far as the card is.
func cardPicture(j job.Job, p plan.Plan, c plan.Card) g.Node {
	pc, known := findPiece(p, c.Piece)
	if !known {
		return g.Group{}
	}
	if c.Count > 0 {
		return el(`div class="picture"`, Progress(j, pc, c.Made, c.Count))
	}
	making, _ := FindCard(p, pc.MakeKey)
	made, total, _ := pieceMade(pc, making)
	return el(`div class="picture"`, Progress(j, pc, made, total))
}

func cardButton(f Frame, j job.Job, c plan.Card) g.Node {
	switch {
	case c.Count > 0:
		return TallyPad(f, tallyOf(f, j, c))
	case c.Done:
		return el(`div class="isdone"`, el(`p class="alldone"`, Icon("tick"), g.Text("Done"+doneBy(f, j, c.Key))),
			Act(f, Deed{Act: "untick", Entity: c.Key}, "quiet", Icon("undo"), g.Text("Not done after all")))
	}
	return Act(f, Deed{Act: "tick", Entity: c.Key}, "go", Icon("tick"), g.Text("Done"))
}

// doneBy says who ticked a card and when, as a continuation of "Done".
func doneBy(f Frame, j job.Job, key string) string {
	readings := j.State.Register(key, "done").Readings
	if len(readings) == 0 {
		return ""
	}
	return " by " + authorName(f.Role, readings[0].Author) + ", " + when(f, readings[0].Stamp)
}

// tallyOf reads who counted last on a card from the job's history.
func tallyOf(f Frame, j job.Job, c plan.Card) Tally {
	t := Tally{Entity: c.Key, Made: c.Made, Total: c.Count, Unit: c.Unit}
	live := j.State.Tally(c.Key).Live()
	if len(live) == 0 {
		return t
	}
	last := live[len(live)-1]
	t.LastBy, t.LastAmount, t.LastOp, t.LastAt = authorName(f.Role, last.Author), int(last.Delta), last.ID, last.Effective
	return t
}

// unnamedOwner stands for an owner who gave no name, before everybody else.
const unnamedOwner = "Whoever runs the job"

// authorName gives the name that stands beside what somebody did, for a reader of the role.
func authorName(reader job.Role, a job.Author) string {
	switch {
	case a.Name != "":
		return a.Name
	case a.Role == job.Owner && reader == job.Owner:
		return "You"
	case a.Role == job.Owner:
		return unnamedOwner
	}
	return "Somebody"
}

// cardEffort says how many people and how long what is left takes, in one or two sentences.
func cardEffort(c plan.Card, left float64) string {
	people := "One person"
	switch {
	case c.HandsMin > 1 && c.HandsMax > c.HandsMin:
		people = strconv.Itoa(c.HandsMin) + " to " + strconv.Itoa(c.HandsMax) + " people"
	case c.HandsMin > 1:
		people = strconv.Itoa(c.HandsMin) + " people at once"
	case c.HandsMax > 1:
		people = "One to " + strconv.Itoa(c.HandsMax) + " people"
	}
	if left <= 0 {
		return people + "."
	}
	if c.HandsMin > 1 {
		return people + ". About " + minutes(left/float64(c.HandsMin)) + " of work for " + strconv.Itoa(c.HandsMin) + " of you."
	}
	return people + ". About " + minutes(left) + " of work for one pair of hands."
}

func cardSteps(c plan.Card) g.Node {
	if len(c.Steps) == 0 {
		return g.Group{}
	}
	return Panel("How", "", el(`ol class="steps"`, g.Map(c.Steps, func(s string) g.Node { return txt("li", s) })))
}

// cardMore draws whose the card is, its note, its working and its history.
func cardMore(f Frame, c plan.Card) g.Node {
	return g.Group{
		g.If(!c.Done || c.TakenBy != "", el(`section class="panel" id="whose"`, whose(f, c))),
		cardNote(f, c),
		workingOpen(f, c.Working),
		el(`p class="below"`, el(`a class="plainlink"`, h.Href(f.at("history")+"?e="+c.Key), Icon("history"), g.Text("Who did what, when"))),
	}
}

func whose(f Frame, c plan.Card) g.Node {
	switch {
	case c.Gone:
		return txt("p", "Nobody needs to do this.")
	case c.Done:
		return txt("p", c.TakenBy+" had taken this.")
	case c.TakenBy == "":
		return el(`div class="whose"`, txt("p", "Nobody has taken this yet."), Act(f, Deed{Act: "take", Entity: c.Key, Text: f.who(), TextGiven: true}, "", Icon("people"), g.Text("I take it")))
	case c.TakenBy == f.who():
		return el(`div class="whose"`, txt("p", "This one is yours."), Act(f, Deed{Act: "take", Entity: c.Key, TextGiven: true}, "quiet", g.Text("Give it back")))
	}
	return el(`div class="whose"`, txt("p", c.TakenBy+" does this."), Act(f, Deed{Act: "take", Entity: c.Key, Text: f.who(), TextGiven: true}, "quiet", g.Text("I take over")))
}

func cardNote(f Frame, c plan.Card) g.Node {
	if !f.Role.MayField(job.Set, c.Key, "note") {
		if c.Note == "" {
			return g.Group{}
		}
		return Panel("Note", "", txt(`p class="note"`, c.Note))
	}
	return Panel("Note", "", DeedForm(f, Deed{Act: "note", Entity: c.Key}, "",
		txt(`label class="vh" for="note-text"`, "Note on this card"),
		el(`textarea id="note-text"`, h.Name(FieldText), h.Rows("2"), h.MaxLength("4000"), g.Text("\n"+c.Note)),
		txt(`button type="submit"`, "Keep the note")))
}

// CardSheet draws every card for paper: one a page, with tick boxes for each step and count.
func CardSheet(f Frame, j job.Job, p plan.Plan) g.Node {
	return g.Group{
		el(`div class="noprint"`, Heading(untitled(j.Brief.Title), "Cards on paper", printButton(), ButtonLink(f.at("cards"), "quiet", g.Text("Back to the cards")))),
		el(`div class="sheets"`, g.Map(p.Cards, func(c plan.Card) g.Node {
			if c.Gone {
				return g.Group{}
			}
			return el(`article class="sheet"`,
				txt(`p class="context"`, untitled(j.Brief.Title)+" · "+cardContext(p, c)),
				txt("h2", c.Title),
				g.If(c.Count > 0, g.Group{Big(number(c.Count), orElse(c.Unit, "to make")), countBoxes(c.Count)}),
				txt("p", cardEffort(c, c.Minutes)),
				g.If(len(c.Waits) > 0, txt("p", "Comes after: "+strings.Join(c.Waits, ", ")+".")),
				el(`ol class="steps boxes"`, g.Map(c.Steps, func(s string) g.Node { return txt("li", s) })),
				g.If(c.Note != "", txt(`p class="note"`, "Note: "+c.Note)),
				Cautions(c.Cautions),
				txt(`p class="signed"`, "Done by ____________________   at ________"))
		})),
	}
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
		return g.Group{}
	}
	if boxes > 2*boxesDrawn {
		return txt("p", "Count on a sheet of your own.")
	}
	list := make([]g.Node, 0, boxes)
	for i := range boxes {
		x, y := i%10*20+i%10/5*8, i/10*20
		list = append(list, el("rect", g.Attr("x", strconv.Itoa(x+1)), g.Attr("y", strconv.Itoa(y+1)), g.Attr("width", "16"), g.Attr("height", "16")))
	}
	rows := (boxes + 9) / 10
	return g.Group{
		g.If(each > 1, txt(`p class="soft"`, "Each box stands for "+strconv.Itoa(each)+".")),
		el(`svg class="countboxes"`, g.Attr("viewBox", "0 0 208 "+strconv.Itoa(rows*20)), g.Attr("width", "416"), g.Attr("height", strconv.Itoa(rows*40)), g.Attr("aria-hidden", "true"), g.Group(list)),
	}
}
