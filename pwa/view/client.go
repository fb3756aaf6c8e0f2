package view

import (
	"math"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/plan/look"
	"garlandry/app/plan/phrase"
	"garlandry/calc/latex"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
)

// ClientShows is what a client's sheet shows besides pictures, date and colours.
type ClientShows struct {
	Title    bool // the job's name
	Measures bool // how wide and high each piece looks
	Crew     bool // first names
}

// ClientSheet draws a job for its client: pictures, date and colours, and what shows names. Nothing else of the job is
// in it, neither ids nor what somebody noted.
func ClientSheet(j job.Job, p plan.Plan, shows ClientShows) g.Node {
	title := "Your balloons"
	if shows.Title {
		title = orElse(j.Brief.Title, title)
	}
	var drawn []count.PieceCount
	for _, c := range p.Pieces {
		if c.Balloons > 0 {
			drawn = append(drawn, c)
		}
	}
	says := func(c *count.PieceCount) g.Node {
		seen := p.Look(c, 0)
		return g.Group{h.B(g.Text(c.Piece.Name)),
			g.Iff(shows.Measures && seen != nil, func() g.Node {
				return Small(looksLike(seen, measure.System(j.Brief.Units)))
			})}
	}
	return h.Article(h.Class("client"), jobShades(j),
		h.Header(h.P(h.Class("soft"), g.Text(longDay(j.Brief.Date))), h.H1(g.Text(title))),
		clientRoom(p, drawn, measure.System(j.Brief.Units)),
		h.Ul(h.Class("clientpieces"), g.Map(drawn, func(c count.PieceCount) g.Node {
			return h.Li(
				g.If(len(drawn) > 1, Front{Look: p.Look(&c, onCover)}.Draw()), // a single one is drawn above
				says(&c))
		})),
		g.If(len(j.Colours) > 0, h.H2(g.Text("Colours"))),
		h.Ul(h.Class("palette"), g.Map(j.Colours, paletteBalloon)),
		g.If(shows.Crew, h.P(g.Text(madeBy(j.Crew)))))
}

// OwnClientSheet draws what the client sees for the owner, to print and to send.
func OwnClientSheet(f Frame, j job.Job, p plan.Plan) g.Node {
	return g.Group{
		ButtonRow(
			ButtonLink(f.at(address.Share)+"#share-client", Plain, g.Attr("data-server"), Icon("share"),
				g.Text(labelMakeClientLink)),
			sendPicture(untitled(j.Brief.Title)), PrintButton()),
		ClientSheet(j, p, ClientShows{Title: true}),
	}
}

// clientRoom draws all pieces beside a person, and says how tall that is.
func clientRoom(p plan.Plan, drawn []count.PieceCount, units measure.System) g.Node {
	names := make([]string, len(drawn))
	for i, c := range drawn {
		names[i] = c.Piece.Name
	}
	picture := Front{Look: p.Room(onSheet), Person: true, Label: "To scale: " + phrase.And(names)}.Draw()
	if picture == nil {
		return h.P(g.Text("There is no picture yet."))
	}
	return h.Figure(h.Class("cover"), picture, h.FigCaption(h.Class("soft"),
		g.Text("To scale. The person is "+measure.FormatLength(personMM, units)+" tall.")))
}

// looksLike says how large a look is, to an inch or 5 cm.
func looksLike(l *look.Look, units measure.System) string {
	step := 50.0
	if units != measure.Metric {
		step = latex.MMPerInch
	}
	about := func(mm float64) string { return measure.FormatLength(math.Round(mm/step)*step, units) }
	return about(l.RightMM-l.LeftMM) + " wide, " + about(l.TopMM-l.BottomMM) + " high"
}

// paletteBalloon draws a colour as a knotted balloon, with its name and finish. The outline was drawn by hand.
func paletteBalloon(c job.Colour) g.Node {
	return h.Li(
		h.SVG(g.Attr("viewBox", "0 0 48 60"), decorative(),
			g.El("path", paint(c), g.Attr("d",
				"M24 55l-4 4h8l-4-4C14 51 4 38 4 24 4 12 13 3 24 3s20 9 20 21c0 14-10 27-20 31z"))),
		g.Text(c.Name), g.If(c.Finish != "" && c.Finish != "standard", Small(c.Finish)))
}

// madeBy names the crew by their first names; "" for nobody.
func madeBy(crew []job.Member) string {
	var names []string
	for _, m := range crew {
		if words := strings.Fields(m.Name); len(words) > 0 && m.Name != job.UnnamedOwner {
			names = append(names, words[0])
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "Made by " + phrase.And(names)
}

// longDay writes a date with its weekday and year; "" if it cannot be read.
func longDay(date string) string {
	day, known := job.ParseMoment(date + "T00:00")
	if !known {
		return ""
	}
	return day.Format("Monday 2 January 2006")
}
