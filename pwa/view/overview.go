package view

import (
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/forecast"
	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/plan/task"
	"garlandry/pwa/address"
)

// Overview draws a job's first page. Its first screen says whether all will be done, what is next and what to decide.
func Overview(f Frame, j job.Job, p plan.Plan, help *forecast.Advice) g.Node {
	empty := len(p.Pieces) == 0
	return g.Group{jobShades(j), Columns(g.Group{
		Heading(besideTitle(overviewContext(f, j), j.Brief.Title, j.Brief.Date), untitled(j.Brief.Title)),
		cover(p),
		newer(j),
		crowdedLine(f),
		g.Iff(f.Held > 0, func() g.Node {
			return LinkBelow(f.at(address.Share)+"#held", "care",
				Many(f.Held, "thing")+" came in after a link ended. Decide what counts.", h.ID("to-held"))
		}),
		urgent(p.Notes),
		g.Iff(empty, func() g.Node { return pieceProgress(f, j, p) }),
		g.Iff(len(p.Cards) > 0, func() g.Node { return window(f, p.Window, help) }),
		nextCards(f, p),
		toDecide(f, p.Notes),
		offlineLine(f),
	},
		g.Group{
			g.Iff(!empty, func() g.Node { return pieceProgress(f, j, p) }),
			g.If(!empty, LinkBelow(f.at(address.Room), "pieces", roomLabel(f))),
			hints(p.Notes, f.Clock.Cautions()...),
			decided(f, p.Notes),
			g.Iff(!empty, func() g.Node { return installOffer(f) }),
			jobLinks(f, untitled(j.Brief.Title)),
		})}
}

// cover draws the whole job to scale, with a person.
func cover(p plan.Plan) g.Node {
	picture := Front{Look: p.Room(onCover), Person: true, Label: toScale(p)}.Draw()
	return g.If(picture != nil, h.Div(h.Class("cover"), picture))
}

// toScale names the pieces of a picture of the whole job.
func toScale(p plan.Plan) string {
	names := "To scale"
	for i := range p.Pieces {
		if p.Pieces[i].Balloons > 0 {
			names += ", " + p.Pieces[i].Piece.Name
		}
	}
	return names
}

// roomLabel is the link to the room.
func roomLabel(f Frame) string {
	if f.Edits() {
		return "Arrange the room"
	}
	return "The room"
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

// overviewContext is [jobContext] without the doors, where the sentence of the clock says them.
func overviewContext(f Frame, j job.Job) string {
	if f.Clock != nil && f.Clock.Doors > 0 && f.Clock.Verdict != "unknown" {
		j.Brief.Doors = ""
	}
	return jobContext(j)
}

// window draws whether all will be done in time: by the clock, or by a simple sum where there is none.
func window(f Frame, w plan.Window, help *forecast.Advice) g.Node {
	switch {
	case !w.Known:
		return Panel(labelInTime, "", h.P(g.Text(w.Reason)),
			g.If(f.Owns(), h.P(ButtonLink(f.at(address.Brief), "", Icon("clock"), g.Text("Set the times")))))
	case f.Clock == nil:
		return Panel(labelInTime, "", h.P(g.Text(w.Sentence)))
	}
	c := f.Clock
	if help != nil && f.Owns() && c.Wanting() && len(help.Fixes) > 0 {
		best := &help.Fixes[0]
		return verdict(c, best.Title(), fixButton(c, best, c.Sentence, f.at(address.Clock), Plain))
	}
	to, label := f.at(address.Clock), "Who does what when"
	if f.Owns() && c.Wanting() {
		to, label = to+"?help=1#help", labelHelp
	}
	return verdict(c, "", PlainLink(to, "clock", label))
}

// hints draws what the plan says without asking anything: warnings, with cautions from elsewhere, then notes.
func hints(notes []count.Note, cautions ...string) g.Node {
	var warnings, rest g.Group
	for _, caution := range cautions {
		warnings = append(warnings, Hint("care", caution))
	}
	for _, n := range notes {
		switch {
		case n.Asks(), n.Urgent: // [decisions] and [urgent] draw it
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

// nextCards draws the card that is next, with a button that opens it.
func nextCards(f Frame, p plan.Plan) g.Node {
	c, found := f.nextCard(p)
	if !found {
		ready := ReadyCards(p.Cards)
		if len(ready) == 0 {
			return nil
		}
		c = ready[0]
	}
	facts, label := cardFacts(f, c), "Open the card"
	if c.TakenBy == "" { // whoever stands here may do it
		facts = strings.Join(workFacts(f, c), " · ")
	}
	if c.Made > 0 {
		label = "Carry on"
	}
	return PanelOf("nextcard", "Next", leftCards(p.Cards), h.ID("next-card"),
		RowText(c.Title, Small(placeTitle(c.Place)+" · "+facts)),
		ButtonLink(f.cardAt(c.Key), Primary, g.Text(label), ForReaders(": "+c.Title)))
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
					pieceLine(p, pc, cards[pc.MakeKey], cards[pc.AheadKey], cards[pc.FixKey])))
		})))
}

func pieceLine(p plan.Plan, pc count.PieceCount, making, ahead, fixing task.Card) g.Node {
	made, total, unit := pieceMade(pc, making, ahead)
	return g.Group{
		RowTitle(pc.Piece.Name),
		h.Span(h.Class("figure"), g.Textf("%s of %s %s", number(made), number(total), unit),
			g.If(fixing.Done, h.Span(h.Class("isup"), Icon("tick"), g.Text("up")))),
		progressOf(p, pc, inThumbnail, false, false),
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

// jobLinks draws the way to everything else of a job of that name, by what the visitor may do.
func jobLinks(f Frame, name string) g.Node {
	type link struct{ href, icon, label string }
	links := []link{{f.at(address.Shop), "pack", "Shop"}, {f.at(address.History), "history", labelHistory},
		{f.at(address.Photos), "photo", LabelPhotos}}
	if f.Owns() {
		links = append(
			[]link{{f.at(address.Brief), "edit", "Brief"}, {f.at(address.Colours), "pieces", "Colours"},
				{f.at(address.Crew), "people", "Crew"},
				{f.at(address.Kit), "car", "Kit"}, {f.at(address.Figures), "counts", labelNumbers},
				{f.at(address.Look), "look", LabelClientView},
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
			Disclosure("quietdetails", "Save, copy, archive or delete",
				ButtonRow(
					sendPicture(name),
					h.A(h.Class("button"), h.Href(f.at(address.Export)), h.Download(""), g.Text(labelSaveFile)),
					jobButton(f, address.Copy, "copy", "Make a copy"),
					jobButton(f, address.ArchiveJob, "away", labelArchive),
					ButtonLink(f.at(address.DeleteJob), Plain, g.Attr("data-server"), g.Text("Delete"))))),
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
