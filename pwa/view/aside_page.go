package view

import (
	"fmt"
	"unicode/utf8"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/pwa/address"
)

// Names of the inputs by which an operation is set aside. Forms post to /jobs/J/share/aside; only the server answers.
const (
	AsideOpID   = "op"
	AsideAct    = "act"
	AsideBack   = "back" // of AsideAct: take it back
	AsideReason = "why"
)

// AsideOp is an operation that may be set aside, or was.
type AsideOp struct {
	ID, Kind, Entity, Field string
	Name                    string // of who made it
	When                    int64  // Unix ms
	Bytes                   int
	Unknown, Harmful        bool
	Aside                   bool
	By, Why                 string // who set it aside, or took it back, and why
	At                      int64  // Unix ms; 0: nobody ever did
}

// AsidePage is what the page of unusual operations shows.
type AsidePage struct {
	Job   string
	Ops   []AsideOp
	Error string
}

// Aside draws what is unusual in a job, for its owner to set aside.
func Aside(f Frame, p AsidePage) g.Node {
	return g.Group{
		Heading("", "What spoils this job?"),
		Lead("Unusual changes in this job. Setting one aside takes it off every phone. It stays on record, and you can take it back."),
		g.If(p.Error != "", Notice(Changed, "care", p.Error)),
		g.Iff(len(p.Ops) == 0, func() g.Node {
			return Empty("Nothing unusual", "Every change here is of a kind and size that phones know.",
				"For example: a very large text, or a change from a newer app.", nil)
		}),
		g.If(len(p.Ops) > 0,
			ListPanel(h.ID("aside-list"), g.Map(p.Ops, func(x AsideOp) g.Node { return asideOp(f, p, x) }))),
		LinkBelow(address.Share.Path(p.Job), "", "Back to Share"),
	}
}

func asideOp(f Frame, p AsidePage, o AsideOp) g.Node {
	what := cut(o.Kind) + " " + cut(o.Entity)
	if o.Field != "" {
		what += " " + cut(o.Field)
	}
	act, button := "aside", "Set aside"
	if o.Aside {
		act, button = AsideBack, "Take back"
	}
	return h.Li(h.ID(domID("odd", o.ID)), h.Class("split"),
		h.Div(h.Class("rowtext"),
			RowTitle(what),
			Small(fmt.Sprintf("%s, %s", orElse(o.Name, "No name"), f.Stamp(o.When))),
			h.Span(g.Text(asideWhat(o))),
			asideRecord(f, o)),
		h.Form(h.Method("post"), h.Action(address.Aside.Path(p.Job)), g.Attr("data-server"),
			Hidden(AsideOpID, o.ID),
			Hidden(AsideAct, act),
			g.If(!o.Aside, h.Label(g.Text("Why (optional) "), h.Input(h.Name(AsideReason), h.MaxLength("400")))),
			Submit(Quiet, g.Text(button))))
}

// asideWhat says what is unusual about it.
func asideWhat(o AsideOp) string {
	switch {
	case o.Harmful:
		return "Phones cannot hold this, so they never get it. " + kilobytes(o.Bytes)
	case o.Unknown:
		return "Made by a newer app, or by none. " + kilobytes(o.Bytes)
	}
	return kilobytes(o.Bytes)
}

func kilobytes(bytes int) string { return Many((bytes+1023)/1024, "kilobyte") + "." }

func asideRecord(f Frame, o AsideOp) g.Node {
	if o.At == 0 {
		return nil
	}
	said := pick(o.Aside, "Set aside by ", "Taken back by ") + orElse(o.By, "the owner") + ", " + f.Stamp(o.At)
	if o.Why != "" {
		said += ": " + o.Why
	}
	return Small(said)
}

// cut shortens a name that somebody may have made absurdly long.
func cut(text string) string {
	const most = 60
	if len(text) <= most {
		return text
	}
	end := most
	for end > 0 && !utf8.RuneStart(text[end]) {
		end--
	}
	return text[:end] + "…"
}
