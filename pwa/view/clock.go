package view

import (
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/forecast"
	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/task"
	"garlandry/pwa/address"
)

// ClockPage is the page of a job's clock.
type ClockPage struct {
	Clock   *forecast.Forecast
	Tried   *forecast.Forecast     // with what was tried out; nil: nothing was
	Hands   int                    // more, tried out
	Sooner  int                    // minutes let in sooner, tried out
	Window  plan.Window            // the simple check, where there is no clock
	Help    *forecast.Advice       // nil: not asked for, or not known yet
	Looking bool                   // for help
	Cures   []*forecast.Mitigation // for the owner: what lets somebody do the cards that nobody can do
	Took    []forecast.Comparison  // for the owner
	Rows    []figures.Figure       // the tables that Took is about
}

// Draw draws whether the crew will be done when the doors open: the answer, the best fix, then who does what when.
func (p *ClockPage) Draw(f Frame, j job.Job) g.Node {
	c := p.Clock
	f.Clock = c
	day, others := clockDays(f, c)
	return g.Group{
		Heading(overviewContext(f, j), "Clock", g.If(c.Planned(), PrintButton())),
		verdict(c, "", restFacts(c), g.Iff(len(c.Cautions()) > 0, func() g.Node {
			return Hints(g.Map(c.Cautions(), func(says string) g.Node { return Hint("care", says) }))
		})),
		g.Iff(!c.Planned() && c.Verdict == "unknown", func() g.Node { return clockMissing(f, c, p.Window) }),
		g.Iff(len(c.Blocked) > 0, func() g.Node { return p.blocked(f) }),
		Columns(g.Group{
			g.Iff(c.Helpable() && f.Edits() && c.Wanting(), func() g.Node { return p.helpParts(f) }),
			g.Iff(c.Planned(), func() g.Node { return clockNow(f, c) }), day},
			g.Group{
				g.Iff(c.Helpable() && f.Edits() && !c.Wanting(), func() g.Node { return p.helpParts(f) }),
				g.Iff(p.Help != nil, func() g.Node { return leaveOut(c, p.Help.Cuts) }),
				g.Iff(c.Planned() && c.Verdict != "past", func() g.Node { return p.whatIf(f) }),
				g.Iff(len(p.Took) > 0, func() g.Node { return tookList(f, p.Took, p.Rows) }),
				g.If(f.Owns() && c.Doors > 0,
					LinkBelow(f.at(address.Calendar), "clock", "Add to my calendar", g.Attr("data-server"))),
			}),
		others,
	}
}

// restFacts draws the figures of the answer that its sentence leaves out.
func restFacts(c *forecast.Forecast) g.Node {
	if !c.Planned() {
		return nil
	}
	var facts g.Group
	add := func(term, value, figure string) {
		if !strings.Contains(c.Sentence, figure) {
			facts = append(facts, Fact(term, value))
		}
	}
	if c.Verdict != "past" {
		term := "Odds by then"
		if len(c.Blocked) > 0 {
			term = "Odds of the rest"
		}
		if c.Rough {
			term = "Odds, at a first look…"
		}
		odds := forecast.Percent(c.Odds)
		add(term, capital(odds), odds+" done")
	}
	add("Likely", clockTime(c, c.Half), Clock(c.At(c.Half)))
	add("Safe bet", clockTime(c, c.Ninety), Clock(c.At(c.Ninety)))
	return g.If(len(facts) > 0, Facts(facts))
}

// worthSaying is how much better the must-haves' odds must be to be shown beside the odds of everything.
const worthSaying = 0.05

// clockMissing says what to fill in, and where. Meanwhile the rough check answers what it can.
func clockMissing(f Frame, c *forecast.Forecast, w plan.Window) g.Node {
	return Panel(
		"Missing",
		"",
		g.Iff(len(c.Missing) > 1, func() g.Node { // the first is the sentence above
			return Hints(g.Map(c.Missing[1:], func(m string) g.Node { return Hint("care", m) }))
		}),
		g.If(w.Known, Soft("Rough check: "+w.Sentence)),
		g.If(
			f.Owns(),
			ButtonRow(
				ButtonLink(f.at(address.Brief), "", Icon("clock"), g.Text("Times")),
				ButtonLink(f.at(address.Crew), "", Icon("people"), g.Text("Crew"))),
		),
	)
}

// clockDays draws what is planned, each day as a picture and as a table that says the same: the day itself, and the
// evenings before it with the take-down.
func clockDays(f Frame, c *forecast.Forecast) (theDay, others g.Node) {
	var before, day []g.Node
	tasks := c.ByStart()
	for from, to := 0, 0; from < len(tasks); from = to {
		first := tasks[from]
		together := func(t *forecast.Task) bool {
			return c.SameDay(t.Start, first.Start) && (t.Place == task.TakeDown) == (first.Place == task.TakeDown)
		}
		for to = from; to < len(tasks) && together(tasks[to]); to++ {
		}
		into, title := &before, Day(string(c.At(first.Start)[:10]))
		switch {
		case first.Place == task.TakeDown:
			title += ", take-down"
		case c.SameDay(first.Start, c.Doors):
			into, title = &day, title+", until the doors"
		}
		*into = append(
			*into,
			PanelOf("clockday", title, "",
				clockPicture(c, tasks[from:to]),
				clockTable(f, c, tasks[from:to], title)),
		)
	}
	if len(before) == 0 {
		return g.Group(day), nil
	}
	return g.Group(day), h.Div(h.Class("places"), g.Group(before))
}

// clockTable lists tasks by start. Numbers are those in the picture.
func clockTable(f Frame, c *forecast.Forecast, tasks []*forecast.Task, title string) g.Node {
	rows := make(g.Group, len(tasks))
	for i, t := range tasks {
		rows[i] = h.Tr(g.If(decides(t), g.Attr("data-critical")),
			h.Td(h.Class("soft"), g.Text(strconv.Itoa(i+1))),
			h.Td(g.Text(Clock(c.At(t.Start))), h.Span(h.Class("till"), g.Text("–"+endTime(c, t)))),
			h.Th(h.Scope("row"), h.A(h.Href(f.cardAt(t.Key)), g.Text(t.Title), Small(clockFacts(c, t))), spellsOnPaper(c, t),
				g.If(decides(t), ForReaders(", on the critical path"))))
	}
	return Table("clocktable", "Who does what, "+title, []string{"Number", "Time", "Card and people"}, rows)
}

// endTime is when a task ends, with its day where that is not the day it begins on.
func endTime(c *forecast.Forecast, t *forecast.Task) string {
	if c.SameDay(t.Start, t.End) {
		return Clock(c.At(t.End))
	}
	return DayClock(c.At(t.End))
}

// clockFacts says who is on a task and by when it must begin. The card says the rest.
func clockFacts(c *forecast.Forecast, t *forecast.Task) string {
	facts := strings.Join(c.Names(t), ", ")
	if t.StartBy != forecast.NoTime && t.StartBy > t.Start {
		facts += " · " + startWords(c, t)
	}
	return facts
}

// spellsOnPaper says who is on a task for a part of its time only. On screen the picture shows it.
func spellsOnPaper(c *forecast.Forecast, t *forecast.Task) g.Node {
	var parts []string
	for _, s := range t.Spells {
		if s.From != t.Start || s.To != t.End {
			parts = append(parts, c.People[s.Person].Name+" "+Clock(c.At(s.From))+"–"+Clock(c.At(s.To)))
		}
	}
	return g.If(len(parts) > 0, h.Span(h.Class("soft onpaper"), g.Text(" ("+strings.Join(parts, ", ")+")")))
}

func needsHands(hands int) string {
	if hands == 2 {
		return "needs two"
	}
	return "needs " + strconv.Itoa(hands)
}

// clockNow tells those who run the job who is on what, and who is free.
func clockNow(f Frame, c *forecast.Forecast) g.Node {
	if !f.Edits() || c.Now < c.In-c.Drive {
		return nil
	}
	var rows []g.Node
	row := func(name, says string) {
		rows = append(rows, h.Li(Icon("people"), h.Span(h.B(g.Text(name)), g.Text(" "+says))))
	}
	took := map[string]string{}
	for _, t := range c.ByStart() {
		if t.TakenBy != "" && took[t.TakenBy] == "" {
			took[t.TakenBy] = t.Title
			if c.Number(t.TakenBy) < 0 {
				row(t.TakenBy, t.Title)
			}
		}
	}
	for i := range c.People {
		name := c.People[i].Name
		first, from := c.Of(i)
		here, helps := c.Here(i, task.Site), c.Helps(i)
		switch {
		case took[name] != "":
			row(name, took[name])
		case helps != nil && here:
			row(name, "helps "+helps.TakenBy+": "+helps.Title)
		case here && (first == nil || first.Place == task.TakeDown):
			row(name, "free")
		case first == nil || first.Place == task.TakeDown:
			row(name, "not there")
		case !here:
			row(name, "not there; from "+clockTime(c, from)+": "+first.Title)
		case from > c.Now:
			row(name, "free until "+clockTime(c, from)+", then "+first.Title)
		default:
			row(name, "free; next: "+first.Title)
		}
	}
	return Panel("Now", "", Hints(g.Group(rows)))
}

// whatIf draws the form to try out more hands and an earlier start, and what comes of it.
func (p *ClockPage) whatIf(f Frame) g.Node {
	said := "Only a try: the job stays as it is."
	if p.Tried != nil {
		said = p.Tried.Sentence
	}
	hands, sooner := "No more hands", "Access as agreed"
	if p.Hands > 0 {
		hands = "With " + Many(p.Hands, "more beginner")
	}
	if p.Sooner > 0 {
		sooner = "Access " + minutes(float64(p.Sooner)) + " sooner"
	}
	field := func(name, label string, value, most, step int) g.Node {
		return FieldBox("if-"+name, label, "",
			h.Input(h.ID("if-"+name), h.Name(name), h.Type("range"), h.Min("0"), h.Max(strconv.Itoa(most)),
				h.Step(strconv.Itoa(step)), h.Value(strconv.Itoa(value))))
	}
	return PanelOf("noprint", "What if", "", h.ID("tryout"),
		h.Form(h.ID("whatif"), h.Class("edit"), h.Method("get"), h.Action(f.at(address.Clock)+"#tryout"),
			h.Data("live", f.at(address.Clock)),
			g.If(p.Help != nil || p.Looking, Hidden("help", "1")),
			field("hands", hands, p.Hands, 4, 1),
			field("sooner", sooner, p.Sooner, 120, 15),
			h.P(h.Role("status"), h.B(g.Text(said))),
			Submit(Plain, g.Text(labelWorkOut))))
}

// decides reports whether a task on site often decides when all is done.
func decides(t *forecast.Task) bool { return t.Place == task.Site && t.Critical >= 0.5 }

// startWords says by when a card must begin, or else when it is planned.
func startWords(c *forecast.Forecast, t *forecast.Task) string {
	if t.StartBy == forecast.NoTime {
		return "planned " + clockTime(c, t.Start)
	}
	return "start by " + clockTime(c, t.StartBy)
}

// clockLine says on a card when it is to begin, with whom, and after what.
func clockLine(f Frame, c task.Card) g.Node {
	t, planned := f.Clock.Task(c.Key)
	if !planned || c.Done {
		return nil
	}
	facts := []string{capital(startWords(f.Clock, t))}
	if c.TakenBy == "" || t.Hands > 1 {
		facts = append(facts, "planned for "+strings.Join(f.Clock.Names(t), ", "))
	}
	if t.Hands > 1 {
		facts = append(facts, needsHands(t.Hands))
	}
	if len(t.WaitsFor) > 0 && len(c.Waits) == 0 {
		facts = append(facts, "after “"+someOf(t.WaitsFor)+"”")
	}
	return Soft(strings.Join(facts, "; ") + ".")
}

// nextCard is [NextCard] by the clock. It picks, in this order: a card that the person has taken; a card on which they
// help somebody; a card that the plan gives them; the free card that begins soonest, at a place where they are then.
func (f Frame) nextCard(p plan.Plan) (task.Card, bool) {
	c, found := NextCard(p, f.who())
	if found && c.TakenBy != "" || !f.Clock.Planned() {
		return c, found
	}
	ready := map[string]task.Card{}
	for _, card := range ReadyCards(p.Cards) {
		ready[card.Key] = card
	}
	me, mine, free := f.Clock.Number(f.Name), "", ""
	if t := f.Clock.Helps(me); t != nil {
		if card, there := ready[t.Key]; there {
			return card, true
		}
	}
	for _, t := range f.Clock.ByStart() {
		card, there := ready[t.Key]
		if !there || card.TakenBy != "" {
			continue
		}
		if mine == "" && t.Has(me) {
			mine = t.Key
		}
		if free == "" && (me < 0 || f.Clock.Here(me, card.Place)) {
			free = t.Key
		}
	}
	if mine != "" {
		free = mine
	}
	if free == "" && me < 0 {
		return c, found
	}
	return ready[free], free != ""
}

// comesLater says when the reader's first planned card starts. It is empty if they have none.
func (f Frame) comesLater() string {
	if me := f.Clock.Number(f.Name); me >= 0 && f.Clock.Planned() {
		if t, from := f.Clock.Of(me); t != nil && from > f.Clock.Now {
			return "Your next task starts at " + clockTime(f.Clock, from) + ": " + t.Title + "."
		}
	}
	return ""
}
