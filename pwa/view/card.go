package view

import (
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/plan/task"
)

// FindCard gives the plan's card with the key.
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
	list := html(`<nav aria-label="Cards"><ul class="list">{}</ul></nav>`, nil,
		each(len(p.Cards), func(i int) g.Node {
			other := p.Cards[i]
			return html(`<li><a class="row small" href="$"{}{}>
				<span class="rowtext"><span class="rowtitle">$</span><span class="soft">$ · $</span></span>
				{}</a></li>`, texts{f.cardAt(other.Key), other.Title, placeTitle(other.Place), orElse(cardFacts(f, other), "done")},
				g.If(other.Key == c.Key, h.Aria("current", "page")),
				set(other.Done, "data-on"), g.If(other.Done, Icon("tick")))
		}))
	return Beside(list,
		el(`div class="cardpage"`, Heading(cardContext(p, c), c.Title), cardLarge(f, j, p, c), cardMore(f, j, c)))
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

// cardLarge draws what a hand needs: how far, the button, the steps, the cautions.
func cardLarge(f Frame, j job.Job, p plan.Plan, c task.Card) g.Node {
	return these(
		html(`<section class="panel doing" id="doing" data-row{}>
			{}
			{}{}
			{}
			{}{}
			{}
			<p class="soft facts-line">$</p></section>`, texts{cardEffort(c, c.Left())},
			set(c.Done, "data-on"), cardPicture(j, p, c), waitsFirst(f, c), clockLine(f, c),
			g.If(c.Gone, fixed(`<p class="delta">{undo}The plan has changed: this card is not needed any more.</p>`)),
			g.If(c.Count > 0, Big(number(c.Made), "of "+number(c.Count)+" "+orElse(c.Unit, "made"))),
			these(beyond(c), stood(c)), cardButton(f, j, c)),
		cardKit(f, j, p, c),
		cardSteps(c),
		Cautions(c.Cautions),
	)
}

func waitsFirst(f Frame, c task.Card) g.Node {
	if len(c.Waits) == 0 || c.Done {
		return nothing
	}
	return html(`<p class="waits">{wait}Comes after: $.</p>`, texts{strings.Join(c.Waits, ", ")})
}

// cardPicture draws the card's piece, filled as far as the card is.
func cardPicture(j job.Job, p plan.Plan, c task.Card) g.Node {
	pc, known := findPiece(p, c.Piece)
	if !known {
		return nothing
	}
	if c.Count > 0 {
		return el(`div class="picture"`, Progress(j, pc, c.Made, c.Count))
	}
	making, _ := FindCard(p, pc.MakeKey)
	ahead, _ := FindCard(p, pc.AheadKey)
	made, total, _ := pieceMade(pc, making, ahead)
	return el(`div class="picture"`, Progress(j, pc, made, total))
}

func cardButton(f Frame, j job.Job, c task.Card) g.Node {
	switch {
	case c.Count > 0:
		return TallyPad(f, tallyOf(f, j, c))
	case c.Done:
		return html(`<div class="isdone"><p class="alldone">{tick}Done$</p>
			{}</div>`, texts{doneBy(f, j, c.Key)},
			Act(f, Deed{Act: "untick", Entity: c.Key}, "quiet", fixed("{undo}Not done after all")))
	}
	return Act(f, Deed{Act: "tick", Entity: c.Key}, "go", fixed("{tick}Done"))
}

// doneBy says who ticked a card and when, as a continuation of "Done".
func doneBy(f Frame, j job.Job, key string) string {
	readings := j.State.Register(key, "done").Readings
	if len(readings) == 0 {
		return ""
	}
	return " by " + authorName(f.Role, readings[0].Author) + ", " + when(f, readings[0].Stamp)
}

// tallyOf reads who counted last on a card from the job's history, and what a tap takes back: the last of all that the
// count is made of, be it an addition or a counting by eye.
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

// UnnamedOwner stands for an owner who gave no name, before everybody else.
const UnnamedOwner = "Whoever runs the job"

// authorName gives the name that stands beside what somebody did, for a reader of the role.
func authorName(reader job.Role, a job.Author) string {
	switch {
	case a.Name != "":
		return a.Name
	case a.Role == job.Owner && reader == job.Owner:
		return "You"
	case a.Role == job.Owner:
		return UnnamedOwner
	}
	return "Somebody"
}

// cardEffort says how many people and how long what is left takes, in one or two sentences.
func cardEffort(c task.Card, left float64) string {
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
		return people + ". About " + minutes(left/float64(c.HandsMin)) + " of work for " + strconv.Itoa(
			c.HandsMin,
		) + " of you."
	}
	return people + ". About " + minutes(left) + " of work for one pair of hands."
}

func cardSteps(c task.Card) g.Node {
	if len(c.Steps) == 0 {
		return nothing
	}
	return Panel("How", "", el(`ol class="steps"`, eachText(c.Steps, func(s string) g.Node { return txt("li", s) })))
}

// cardMore draws whose the card is, its note, its working and its history.
func cardMore(f Frame, j job.Job, c task.Card) g.Node {
	return these(
		g.If(!c.Done || c.TakenBy != "", el(`section class="panel" id="whose"`, whose(f, c))),
		cardNote(f, j, c),
		workingOpen(f, c.Working),
		html(`<p class="below"><a class="plainlink" href="$?e=$">{history}Who did what, when</a></p>`,
			texts{f.at("history"), c.Key}),
	)
}

func whose(f Frame, c task.Card) g.Node {
	switch {
	case c.Gone:
		return txt("p", "Nobody needs to do this.")
	case c.Done:
		return txt("p", c.TakenBy+" had taken this.")
	case c.TakenBy == "":
		return html(`<div class="whose"><p>Nobody has taken this yet.</p>{}</div>`, nil,
			Act(f, Deed{Act: "take", Entity: c.Key, Text: f.who(), TextGiven: true}, "", fixed("{people}I take it")))
	case c.TakenBy == f.who():
		return html(`<div class="whose"><p>This one is yours.</p>{}</div>`, nil,
			Act(f, Deed{Act: "take", Entity: c.Key, TextGiven: true}, "quiet", g.Text("Give it back")))
	}
	return html(`<div class="whose"><p>$ does this.</p>{}</div>`, texts{c.TakenBy},
		Act(f, Deed{Act: "take", Entity: c.Key, Text: f.who(), TextGiven: true}, "quiet", g.Text("I take over")))
}

// CardSheet draws every card for paper: one a page, with tick boxes for each step and count.
func CardSheet(f Frame, j job.Job, p plan.Plan) g.Node {
	return these(
		el(
			`div class="noprint"`,
			Heading(untitled(j.Brief.Title), "Cards on paper", PrintButton(),
				ButtonLink(f.at("cards"), "quiet", g.Text("Back to the cards"))),
		),
		el(`div class="sheets"`, each(len(p.Cards), func(i int) g.Node {
			c := p.Cards[i]
			if c.Gone {
				return nothing
			}
			return html(`<article class="sheet">
				<p class="context">$ · $</p>
				<h2>$</h2>
				{}
				<p>$</p>
				{}
				<ol class="steps boxes">{}{}</ol>
				{}
				{}
				<p class="signed">Done by ____________________   at ________</p></article>`, texts{untitled(j.Brief.Title), cardContext(p, c), c.Title, cardEffort(c, c.Minutes)},
				g.If(c.Count > 0, these(Big(number(c.Count), orElse(c.Unit, "to make")), countBoxes(c.Count))),
				g.If(len(c.Waits) > 0, txt("p", "Comes after: "+strings.Join(c.Waits, ", ")+".")),
				eachText(c.Steps, func(s string) g.Node { return txt("li", s) }),
				g.Iff(c.Key == reloadKey, func() g.Node {
					lines := kitLines(p)
					return each(len(lines), func(i int) g.Node { return txt("li", number(lines[i].Out())+" "+lines[i].Name) })
				}),
				g.If(c.Note != "", txt(`p class="note"`, "Note: "+c.Note)),
				Cautions(c.Cautions))
		})),
	)
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
		return nothing
	}
	if boxes > 2*boxesDrawn {
		return txt("p", "Count on a sheet of your own.")
	}
	list := make([]g.Node, 0, boxes)
	for i := range boxes {
		x, y := i%10*20+i%10/5*8, i/10*20
		list = append(list,
			html(`<rect x="$" y="$" width="16" height="16"></rect>`, texts{strconv.Itoa(x + 1), strconv.Itoa(y + 1)}))
	}
	rows := (boxes + 9) / 10
	return these(
		g.If(each > 1, txt(`p class="soft"`, "Each box stands for "+strconv.Itoa(each)+".")),
		html(`<svg class="countboxes" viewBox="0 0 208 $" width="416" height="$" aria-hidden="true">{}</svg>`,
			texts{strconv.Itoa(rows * 20), strconv.Itoa(rows * 40)}, these(list...)),
	)
}
