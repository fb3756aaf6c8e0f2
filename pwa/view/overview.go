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
	"garlandry/pwa/address"
)

// Overview draws a job's first page: the window in one sentence, what is next, how far each piece is, what to decide.
func Overview(f Frame, j job.Job, p plan.Plan) g.Node {
	return Columns(g.Group{
		Heading(jobContext(j), untitled(j.Brief.Title),
			g.If(f.Owns(),
				g.Group{
					ButtonLink(f.at(address.Brief), "", Icon("edit"), g.Text("Brief")),
					ButtonLink(f.at(address.Share), "", Icon("share"), g.Text("Share")),
				})),
		newer(j),
		crowdedLine(f),
		g.Iff(f.Held > 0, func() g.Node {
			return LinkBelow(f.at(address.Share)+"#held", "care",
				Many(f.Held, "thing")+" came in after a link ended. Decide what counts.", h.ID("to-held"))
		}),
		g.Iff(len(p.Pieces) == 0, func() g.Node { return pieceProgress(f, j, p) }),
		urgent(p.Notes),
		window(f, p.Window),
		toDecide(f, p.Notes),
		nextCards(f, p),
	},
		g.Group{
			g.Iff(len(p.Pieces) > 0, func() g.Node { return pieceProgress(f, j, p) }),
			hints(p.Notes),
			jobLinks(f),
		})
}

// urgent draws the warnings that belong above everything else.
func urgent(notes []count.Note) g.Node {
	var list g.Group
	for _, n := range notes {
		if n.Urgent {
			list = append(list, Notice(Changed, "care", n.Text))
		}
	}
	return list
}

// newer says that the job holds what this version cannot read.
func newer(j job.Job) g.Node {
	if j.State == nil || len(j.State.Unknown) == 0 {
		return nil
	}
	return Notice(Changed, "care", "Part of this was made by a newer version. Update to see it.")
}

func jobContext(j job.Job) string {
	return JobRow{Date: j.Brief.Date, Doors: j.Brief.Doors, Venue: j.Brief.Venue}.when()
}

// window draws whether all will be done in time: by the clock, or by a simple sum where there is none.
func window(f Frame, w plan.Window) g.Node {
	switch {
	case !w.Known:
		return Panel(labelInTime, "", h.P(g.Text(w.Reason)),
			g.If(f.Owns(), h.P(ButtonLink(f.at(address.Brief), "", Icon("clock"), g.Text("Set the times")))))
	case f.Clock == nil:
		return Panel(labelInTime, "", h.P(g.Text(w.Sentence)))
	}
	return clockSentence(f, f.Clock, ButtonLink(f.at(address.Clock), "", g.Group{
		Icon("clock"),
		g.Text("Who does what when"),
	}))
}

// toDecide draws the questions among notes with their answers as buttons. It draws nothing if there are none.
func toDecide(f Frame, notes []count.Note) g.Node {
	var open []g.Node
	for _, n := range notes {
		if n.Asks() {
			open = append(open, decision(f, n))
		}
	}
	if len(open) == 0 {
		return nil
	}
	return Panel("To decide", "", h.ID("decisions"), g.Group(open))
}

// decision draws one note with its options: buttons for who may decide, words for who may not.
func decision(f Frame, n count.Note) g.Node {
	return h.Div(h.Class("decision"), h.ID(domID("note", n.Key)),
		h.P(g.Text(n.Text)),
		g.If(f.Owns(),
			ButtonRow(
				g.Map(n.Options, func(o count.Option) g.Node {
					picked := o.Value == n.Picked
					return ActionForm(f,
						Action{Act: "choose", Entity: "choice/" + n.Key, Text: o.Value, TextGiven: true}, "",
						Submit(Plain, h.Aria("pressed", strconv.FormatBool(picked)),
							g.If(picked, Icon("tick")),
							g.Text(o.Label)))
				}))),
		g.If(!f.Owns() && n.Picked != "", Soft("Decided: "+pickedLabel(n))))
}

func pickedLabel(n count.Note) string {
	for _, o := range n.Options {
		if o.Value == n.Picked {
			return o.Label
		}
	}
	return n.Picked
}

// hints draws what the plan says without asking anything: warnings first, then notes.
func hints(notes []count.Note) g.Node {
	var warnings, rest g.Group
	for _, n := range notes {
		switch {
		case n.Asks(), n.Urgent: // [toDecide] and [urgent] draw it
		case n.Kind == "warning":
			warnings = append(warnings, Hint("care", n.Text))
		default:
			rest = append(rest, Hint("next", n.Text))
		}
	}
	return g.Group{
		g.If(len(warnings) > 0, Panel(labelCare, "", Hints(warnings))),
		g.If(len(rest) > 0, Panel("Notes", "", Hints(rest))),
	}
}

// nextCards draws the first cards that can be done now.
func nextCards(f Frame, p plan.Plan) g.Node {
	ready := ReadyCards(p.Cards)
	if len(ready) == 0 {
		return nil
	}
	return Panel("Next", leftCards(p.Cards),
		List(g.Map(ready[:min(3, len(ready))], func(c task.Card) g.Node { return cardRow(f, c, "next") })),
		LinkBelow(f.at(address.Cards), "", "All cards"))
}

func leftCards(cards []task.Card) string {
	done, all := doneCards(cards)
	return strconv.Itoa(done) + " of " + strconv.Itoa(all) + " done"
}

func doneCards(cards []task.Card) (done, all int) {
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
		return Empty("No piece yet",
			"A piece is one thing to build, such as a garland or a column. It brings its own counts, pack list and cards.",
			"For example: a garland around the door.",
			g.If(f.Edits(), ButtonLink(f.at(address.NewPiece), "go", g.Group{Icon("plus"), g.Text(labelAddPiece)})))
	}
	cards := map[string]task.Card{}
	for _, c := range p.Cards {
		cards[c.Key] = c
	}
	return Panel("Pieces", "", h.Ul(h.Class("piecelist"),
		g.Map(p.Pieces, func(pc count.PieceCount) g.Node {
			return h.Li(h.ID(domID("piece", pc.Piece.ID)),
				h.A(h.Href(f.at(address.Piece, pc.Piece.ID)),
					pieceLine(j, pc, cards[pc.MakeKey], cards[pc.AheadKey], cards[pc.FixKey])))
		})))
}

func pieceLine(j job.Job, pc count.PieceCount, making, ahead, fixing task.Card) g.Node {
	made, total, unit := pieceMade(pc, making, ahead)
	return g.Group{
		RowTitle(pc.Piece.Name),
		h.Span(h.Class("figure"), g.Textf("%s of %s %s", number(made), number(total), unit),
			g.If(fixing.Done, h.Span(h.Class("isup"), Icon("tick"), g.Text("up")))),
		Progress(j, pc, made, total),
	}
}

func pieceMade(pc count.PieceCount, making, ahead task.Card) (made, total int, unit string) {
	switch {
	case making.Count+ahead.Count > 0:
		return making.Made + ahead.Made, making.Count + ahead.Count, orElse(orElse(making.Unit, ahead.Unit), "made")
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
	links := []link{{f.at(address.Shop), "pack", "Shop"}, {f.at(address.History), "history", labelHistory}}
	if f.Owns() {
		links = append(
			[]link{{f.at(address.Brief), "edit", "Brief"}, {f.at(address.Colours), "pieces", "Colours"},
				{f.at(address.Crew), "people", "Crew"},
				{f.at(address.Kit), "car", "Kit"}, {f.at(address.Figures), "counts", labelNumbers},
				{f.at(address.Share), "share", "Share"}},
			links...)
	}
	return g.Group{
		Panel("More", "",
			h.Ul(h.Class("tiles"),
				g.Map(links, func(l link) g.Node {
					return h.Li(h.A(h.Href(l.href), Icon(l.icon), h.Span(g.Text(l.label))))
				}))),
		g.If(f.Owns(),
			Disclosure("quietdetails", "Save, copy or archive",
				ButtonRow(
					h.A(h.Class("button"), h.Href(f.at(address.Export)), h.Download(""), g.Text(labelSaveFile)),
					jobButton(f, address.Copy, "copy", "Make a copy"),
					jobButton(f, address.ArchiveJob, "away", labelArchive)))),
	}
}

func jobButton(f Frame, page address.Page, id, label string) g.Node {
	return PostForm(ByCore, "job-"+id, f.at(page), Submit(Plain, g.Text(label)))
}

func orElse(text, instead string) string {
	if strings.TrimSpace(text) == "" {
		return instead
	}
	return text
}
