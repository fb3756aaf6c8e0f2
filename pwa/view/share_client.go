package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/pwa/address"
)

// The names of the boxes that say what a client's page shows.
const (
	ShowTitle    = "title"
	ShowMeasures = "measures"
	ShowCrew     = "crew"
	ClientPrefix = "client." // before the other inputs of that form
)

// LabelClientLink names a link to the client's page where there is no other name.
const LabelClientLink = "the client"

// ClientLink is one link to the client's page as the owner sees it.
type ClientLink struct {
	ID    string
	Shows ClientShows
	Made  int64 // Unix ms
	Ends  int64
	Until string // the last day on which it works, at the job's place
	Over  bool   // revoked
}

// shareClient draws the links to the client's page, and the form that makes one.
func shareClient(f Frame, p SharePage) g.Node {
	box := func(name, label string, on bool) g.Node {
		if len(p.ClientState.Values) > 0 {
			on = p.ClientState.Values.Has(name)
		}
		return Check(name, "yes", label, on, h.ID("client-"+name))
	}
	return Panel("For the client", "", h.ID("share-client"),
		Soft("Pictures, date and colours, always up to date."),
		LinkBelow(f.at(address.Look), "look", LabelClientView),
		g.If(len(p.Clients) > 0, List(g.Map(p.Clients, func(l ClientLink) g.Node { return clientRow(f, l) }))),
		Disclosure("set", labelMakeClientLink, g.If(!p.ClientState.OK(), g.Attr("open")),
			shareForm("share-client-new", f.at(address.NewClient), Fields(
				box(ShowTitle, "With the name of the job", true),
				box(ShowMeasures, "With measures", false),
				box(ShowCrew, "With first names of the crew", false),
				FieldInput(Field{Field: job.Field{Name: ShareEnds, Label: "Ends after", Kind: job.Day,
					Help: "Empty: 30 days after the event."}, Prefix: ClientPrefix, Typed: p.ClientState.Values,
					Errors: p.ClientState.Errors, Units: f.Units}),
				Submit(Plain, Icon("share"), g.Text(labelMakeClientLink))))))
}

func clientRow(f Frame, l ClientLink) g.Node {
	line, over := "until the end of "+Day(l.Until), l.Over || l.Ends <= f.Now
	if over {
		line = "ended"
	}
	for _, shown := range []struct {
		is   bool
		what string
	}{{l.Shows.Title, "name"}, {l.Shows.Measures, "measures"}, {l.Shows.Crew, "crew"}} {
		if shown.is {
			line += ", with " + shown.what
		}
	}
	return SplitRow(domID("client", l.ID), []g.Node{RowTitle("Made " + Ago(f.Now, l.Made)), Small(line)},
		g.If(!over, shareForm(domID("end-client", l.ID), f.at(address.EndClient), Hidden(ShareLink, l.ID),
			Submit(Quiet, g.Text("End link"), ForReaders(" made "+Ago(f.Now, l.Made))))))
}
