package view

import (
	"fmt"
	"unicode/utf8"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/pwa/address"
)

// The names of the inputs that set an operation aside. Only the server answers these forms.
const (
	AsideOpID   = "op"
	AsideAct    = "act"
	AsideBack   = "back" // a value of AsideAct: bring it back
	AsideReason = "why"
)

// AsideOp is an operation that the owner may set aside or has set aside.
type AsideOp struct {
	ID, Kind, Entity, Field string
	Name                    string // of who made it
	When                    int64  // Unix ms
	Bytes                   int
	Unknown, Harmful        bool
	Aside                   bool
	By, Why                 string // who set it aside or brought it back, and why
	At                      int64  // Unix ms; 0: nobody ever did
}

// AsidePage is what [Aside] shows.
type AsidePage struct {
	Job   string
	Ops   []AsideOp
	Error string
}

// Aside draws the unusual changes in a job. Its owner can set them aside.
func Aside(f Frame, p AsidePage) g.Node {
	return g.Group{
		Heading("", "What spoils this job?"),
		Lead("Set a change aside to take it off every phone. You can bring it back."),
		g.If(p.Error != "", Notice(Changed, "care", p.Error)),
		g.Iff(len(p.Ops) == 0, func() g.Node {
			return Empty("Nothing unusual", "Every change in this job is of a usual kind and size.",
				"Unusual is a very large text, or a change from a newer app.", nil)
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
		act, button = AsideBack, "Bring back"
	}
	return SplitRow(domID("odd", o.ID), []g.Node{
		RowTitle(what),
		Small(fmt.Sprintf("%s, %s", orElse(o.Name, "No name"), f.Stamp(o.When))),
		h.Span(g.Text(asideWhat(o))),
		asideRecord(f, o),
	},
		PostForm(ByServer, domID("aside", o.ID), address.Aside.Path(p.Job),
			Hidden(AsideOpID, o.ID),
			Hidden(AsideAct, act),
			g.If(!o.Aside, h.Label(g.Text("Why (optional) "), h.Input(h.Name(AsideReason), h.MaxLength("400")))),
			Submit(Quiet, g.Text(button))))
}

// asideWhat says what is unusual about it.
func asideWhat(o AsideOp) string {
	switch {
	case o.Harmful:
		return "Too large for phones: they never get it. " + kilobytes(o.Bytes)
	case o.Unknown:
		return "Unknown kind, perhaps from a newer app. " + kilobytes(o.Bytes)
	}
	return kilobytes(o.Bytes)
}

func kilobytes(bytes int) string { return Many((bytes+1023)/1024, "kilobyte") + "." }

func asideRecord(f Frame, o AsideOp) g.Node {
	if o.At == 0 {
		return nil
	}
	record := "Brought back by "
	if o.Aside {
		record = "Set aside by "
	}
	record += orElse(o.By, "the owner") + ", " + f.Stamp(o.At)
	if o.Why != "" {
		record += ": " + o.Why
	}
	return Small(record)
}

// cut shortens a name that may be absurdly long.
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
