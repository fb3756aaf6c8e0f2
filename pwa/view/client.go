package view

import (
	"math"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/look"
	"garlandry/calc/latex"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
)

// clientSheet draws a job for its client: pictures, date and colours, under a title, and a line below that may be
// empty. Nothing else of the job is in it, neither ids nor what somebody noted.
func clientSheet(j job.Job, p plan.Plan, title, below string, measures bool) g.Node {
	units := measure.System(j.Brief.Units)
	pieces, colours := g.Group{h.Class("clientpieces")}, g.Group{h.Class("palette")}
	for i := range p.Pieces {
		c := &p.Pieces[i]
		if c.Balloons == 0 {
			continue
		}
		size := ""
		if seen := p.Look(c, 0); measures && seen != nil {
			size = looksLike(seen, units)
		}
		pieces = append(pieces, h.Li(Front{Look: p.Look(c, onCover)}.Draw(), RowText(c.Piece.Name, Small(size))))
	}
	for _, c := range j.Colours {
		colours = append(colours, paletteBalloon(c))
	}
	return h.Article(h.Class("client"), jobShades(j),
		h.Header(Small(longDay(j.Brief.Date)), h.H1(g.Text(title))),
		h.Div(h.Class("cover"), Front{Look: p.Room(onSheet), Person: true, Label: toScale(p)}.Draw(),
			Small("The person is "+measure.FormatLength(personMM, units)+" tall.")),
		h.Ul(pieces), h.Ul(colours), g.If(below != "", h.P(g.Text(below))))
}

// OwnClientSheet draws what the client sees for the owner, to print and to send.
func OwnClientSheet(f Frame, j job.Job, p plan.Plan) g.Node {
	return g.Group{
		ButtonRow(ButtonLink(f.at(address.Share)+"#share-client", Plain, g.Text(labelMakeClientLink)),
			sendPicture(untitled(j.Brief.Title)), PrintButton()),
		clientSheet(j, p, untitled(j.Brief.Title), "", false),
	}
}

// looksLike says how large a look is.
func looksLike(l *look.Look, units measure.System) string {
	return about(l.RightMM-l.LeftMM, units) + " wide, " + about(l.TopMM-l.BottomMM, units) + " high"
}

// about writes a length to an inch or 5 cm.
func about(mm float64, units measure.System) string {
	step := 50.0
	if units != measure.Metric {
		step = latex.MMPerInch
	}
	return measure.FormatLength(math.Round(mm/step)*step, units)
}

// paletteBalloon draws a colour as a knotted balloon, with its name and finish. The outline was drawn by hand.
func paletteBalloon(c job.Colour) g.Node {
	return h.Li(g.Raw(`<svg viewBox="0 0 48 60" aria-hidden="true"><path fill="url(#`+shadeID(c)+
		`)" d="M24 55l-4 4h8l-4-4C14 51 4 38 4 24 4 12 13 3 24 3s20 9 20 21c0 14-10 27-20 31z"/></svg>`),
		RowText(c.Name, Small(strings.TrimPrefix(c.Finish, "standard"))))
}

// longDay writes a date with its weekday and year; "" if it cannot be read.
func longDay(date string) string {
	day, known := job.ParseMoment(date + "T00:00")
	if !known {
		return ""
	}
	return day.Format("Monday 2 January 2006")
}
