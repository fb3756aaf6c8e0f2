package view

import (
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan"
)

// Overview draws a job's first page: the window in one sentence, what is next, how far each piece is, what to decide.
func Overview(f Frame, j job.Job, p plan.Plan) g.Node {
	return g.Group{
		el(`div class="columns"`,
			el("div",
				Heading(jobContext(j), untitled(j.Brief.Title), g.If(f.Owns(), g.Group{ButtonLink(f.at("brief"), "", Icon("edit"), g.Text("Brief")), ButtonLink(f.at("share"), "", Icon("share"), g.Text("Share"))})),
				g.Iff(len(p.Pieces) == 0, func() g.Node { return pieceProgress(f, j, p) }),
				window(f, j, p.Window),
				toDecide(f, p.Notes),
				nextCards(f, p),
			),
			el("div",
				g.Iff(len(p.Pieces) > 0, func() g.Node { return pieceProgress(f, j, p) }),
				hints(p.Notes),
				jobLinks(f),
			)),
	}
}

func jobContext(j job.Job) string {
	return JobRow{Date: j.Brief.Date, Doors: j.Brief.Doors, Venue: j.Brief.Venue}.when()
}

// window draws the check of work against time: the sentence first, then a bar and the figures.
func window(f Frame, j job.Job, w plan.Window) g.Node {
	if !w.Known {
		return Panel("Will it be done in time?", "", txt("p", w.Reason),
			g.If(f.Owns(), el("p", ButtonLink(f.at("brief"), "", Icon("clock"), g.Text("Set the times")))))
	}
	words := map[string]string{"fits": "It fits", "tight": "It is tight", "short": "It does not fit"}[w.Verdict]
	icon := map[string]string{"fits": "tick", "tight": "wait", "short": "care"}[w.Verdict]
	return el(`section class="panel window"`, g.Attr("data-verdict", w.Verdict),
		g.If(words != "", el(`h2 class="verdict"`, Icon(icon), g.Text(words))),
		txt(`p class="sentence"`, w.Reason),
		windowBar(w),
		el(`dl class="facts"`,
			fact("Let in", orElse(DayClock(j.Brief.In), "not set")),
			fact("Doors", orElse(Clock(j.Brief.Doors), "not set")),
			fact("Left on site", minutes(w.Left)),
			fact("Hands", figure(w.Hands, 1)),
			g.If(w.Home > 0, fact("Left before the day", minutes(w.HomeLeft))),
			g.If(w.TakeDown > 0, fact("Take-down", minutes(w.TakeDown)))))
}

func fact(term, value string) g.Node { return el("div", txt("dt", term), txt("dd", value)) }

// windowBar draws the time from let in to doors, and how much of it the work still takes.
func windowBar(w plan.Window) g.Node {
	if w.Minutes <= 0 {
		return g.Group{}
	}
	scale := 320 / max(w.Minutes, w.Left)
	span, work := w.Minutes*scale, w.Left*scale
	rect := func(class string, width float64) g.Node {
		return el("rect", h.Class(class), g.Attr("x", "0"), g.Attr("y", "6"), g.Attr("width", figure(max(width, 0), 1)), g.Attr("height", "16"), g.Attr("rx", "4"))
	}
	return el(`svg class="windowbar" viewBox="0 0 322 28" preserveAspectRatio="none" role="img"`,
		h.Aria("label", "Work left "+minutes(w.Left)+" of a window of "+minutes(w.Minutes)),
		rect("span", span), rect("work", work), el(`path class="doors"`, g.Attr("d", "M"+figure(span, 1)+" 0V28")))
}

func toDecide(f Frame, notes []plan.Note) g.Node {
	var open []g.Node
	for _, n := range notes {
		if n.Key != "" && len(n.Options) > 0 {
			open = append(open, decision(f, n))
		}
	}
	if len(open) == 0 {
		return g.Group{}
	}
	return Panel("To decide", "", open...)
}

// decision draws one note with its options: buttons for who may decide, words for who may not.
func decision(f Frame, n plan.Note) g.Node {
	return el(`div class="decision"`, h.ID(domID("note", n.Key)), txt("p", n.Text),
		g.If(f.Owns(), el(`div class="choices"`, g.Map(n.Options, func(o plan.Option) g.Node {
			picked := o.Value == n.Picked
			return DeedForm(f, Deed{Act: "choose", Entity: "choice/" + n.Key, Text: o.Value, TextGiven: true}, "",
				el(`button type="submit"`, h.Aria("pressed", strconv.FormatBool(picked)), g.If(picked, Icon("tick")), g.Text(o.Label)))
		}))),
		g.If(!f.Owns() && n.Picked != "", txt(`p class="soft"`, "Decided: "+pickedLabel(n))))
}

func pickedLabel(n plan.Note) string {
	for _, o := range n.Options {
		if o.Value == n.Picked {
			return o.Label
		}
	}
	return n.Picked
}

// hints draws what the plan says without asking anything.
func hints(notes []plan.Note) g.Node {
	var list []g.Node
	for _, n := range notes {
		if n.Key != "" && len(n.Options) > 0 {
			continue
		}
		icon := "next"
		if n.Kind == "warning" {
			icon = "care"
		}
		list = append(list, el("li", Icon(icon), txt("span", n.Text)))
	}
	if len(list) == 0 {
		return g.Group{}
	}
	return Panel("Good to know", "", el(`ul class="hints"`, g.Group(list)))
}

// nextCards draws the first cards that can be done now.
func nextCards(f Frame, p plan.Plan) g.Node {
	ready := ReadyCards(p.Cards)
	if len(ready) == 0 {
		return g.Group{}
	}
	return Panel("What is next", leftCards(p.Cards),
		el(`ul class="list inset"`, g.Map(ready[:min(3, len(ready))], func(c plan.Card) g.Node { return cardRow(f, c, "next") })),
		el(`p class="below"`, el("a", h.Href(f.at("cards")), g.Text("All cards"))))
}

func leftCards(cards []plan.Card) string {
	done, all := doneCards(cards)
	return strconv.Itoa(done) + " of " + strconv.Itoa(all) + " done"
}

func doneCards(cards []plan.Card) (done, all int) {
	for _, c := range cards {
		if c.Gone {
			continue
		}
		all++
		if c.Done {
			done++
		}
	}
	return done, all
}

// pieceProgress draws every piece as a string of beads with its figure.
func pieceProgress(f Frame, j job.Job, p plan.Plan) g.Node {
	if len(p.Pieces) == 0 {
		return Empty("No piece yet", "A piece is one thing to build: a garland, a hoop, a column, bouquets. Each one brings its counts, its pack list and its cards.",
			"For example: a door garland along an arch, 8 ft wide and 8 ft high.", g.If(f.Edits(), ButtonLink(f.at("pieces/new"), "go", Icon("plus"), g.Text("Add a piece"))))
	}
	cards := map[string]plan.Card{}
	for _, c := range p.Cards {
		cards[c.Key] = c
	}
	return Panel("The pieces", "", el(`ul class="piecelist"`, g.Map(p.Pieces, func(pc plan.PieceCount) g.Node {
		return el("li", h.ID(domID("piece", pc.Piece.ID)), el("a", h.Href(f.at("pieces/"+pc.Piece.ID)), pieceLine(j, pc, cards[pc.MakeKey], cards[pc.FixKey])))
	})))
}

func pieceLine(j job.Job, pc plan.PieceCount, making, fixing plan.Card) g.Node {
	made, total, unit := pieceMade(pc, making)
	return g.Group{
		txt(`span class="rowtitle"`, pc.Piece.Name),
		el(`span class="figure"`, g.Text(number(made)+" of "+number(total)+" "+unit), g.If(fixing.Done, el(`span class="isup"`, Icon("tick"), g.Text("up")))),
		Progress(j, pc, made, total),
	}
}

func pieceMade(pc plan.PieceCount, making plan.Card) (made, total int, unit string) {
	switch {
	case making.Count > 0:
		return making.Made, making.Count, orElse(making.Unit, "made")
	case making.Done:
		return pc.Balloons, pc.Balloons, "balloons"
	}
	return 0, pc.Balloons, "balloons"
}

// pieceColours lists the colours of a piece in palette order, by its shares or typed counts.
func pieceColours(j job.Job, p job.Piece) []job.Colour {
	used := map[string]bool{}
	for _, s := range p.Colours {
		used[s.Colour] = used[s.Colour] || s.Weight > 0
	}
	for _, c := range p.Counts {
		used[c.Colour] = used[c.Colour] || c.Count > 0
	}
	var colours []job.Colour
	for _, c := range j.Colours {
		if used[c.ID] {
			colours = append(colours, c)
		}
	}
	return colours
}

// jobLinks draws the way to everything else of a job, by what the visitor may do.
func jobLinks(f Frame) g.Node {
	type link struct{ href, icon, label string }
	links := []link{{f.at("history"), "history", "Who did what, when"}}
	if f.Owns() {
		links = append([]link{{f.at("brief"), "edit", "Brief"}, {f.at("colours"), "pieces", "Colours"}, {f.at("crew"), "people", "Crew"}, {f.at("kit"), "car", "Kit"},
			{f.at("figures"), "counts", "Figures used"}, {f.at("share"), "share", "Share with helpers"}}, links...)
	}
	return g.Group{
		Panel("The rest of the job", "", el(`ul class="tiles"`, g.Map(links, func(l link) g.Node {
			return el("li", el("a", h.Href(l.href), Icon(l.icon), txt("span", l.label)))
		}))),
		g.If(f.Owns(), el(`details class="quietdetails"`, txt("summary", "Save, copy or put away"),
			el(`div class="choices"`,
				el(`a class="button"`, h.Href(f.at("export")), h.Download(""), g.Text("Save as a file")),
				jobButton(f, "copy", "Make a copy"),
				jobButton(f, "away", "Put away")))),
	}
}

func jobButton(f Frame, what, label string) g.Node {
	return el(`form method="post"`, h.Action(f.at(what)), h.ID("job-"+what), g.Attr("data-core"), txt(`button type="submit"`, label))
}

func orElse(text, instead string) string {
	if strings.TrimSpace(text) == "" {
		return instead
	}
	return text
}
