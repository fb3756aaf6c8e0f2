package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
)

// The names of the inputs of the forms that make, change and end links. Only the server answers these forms.
const (
	ShareName   = "name"
	ShareRole   = "role"
	ShareEnds   = "ends"   // a day; empty: no end
	ShareLink   = "link"   // id of a link
	ShareOp     = "op"     // id of an operation held back; there may be many
	ShareDevice = "device" // id of a device
)

// SharePage is what [Share] shows.
type SharePage struct {
	People []SharePerson // the crew, except the owner who looks
	Links  []Link
	Held   []Held
	Late   []Held     // arrived after the job was archived, and counts
	State  form.State // of the form for a new link
	Fresh  *FreshLink // just made

	Clients     []ClientLink // to the client's page
	ClientState form.State   // of the form for a new one

	Devices []OwnDevice
	Room    []RoomUse // who wrote how much, the most first
}

// FreshLink is a link that was just made. Its address is never shown again.
type FreshLink struct {
	Name, URL string
	Owner     bool // for another device of the owner
	Client    bool // to the client's page
	QR        [][]bool
}

// Held is an operation that arrived after its link had ended. It waits for the owner.
type Held struct {
	Op, Name, What string
	When           int64 // Unix ms
	BeforeEnd      bool  // it was made before the link had ended
}

// Share draws the helper links of a job, for its owner.
func Share(f Frame, p SharePage) g.Node {
	return g.Group{
		Heading("", "Share"),
		Lead("One link for each helper. Helpers never see prices or the client."),
		freshLink(p.Fresh),
		heldBack(f, p.Held),
		cameLate(f, p.Late),
		sharePeople(f, p),
		linkForm(f, p.State, len(p.People) > 0, len(p.People)+len(p.Links) == 0 && p.Fresh == nil),
		linkList(f, p.otherLinks()),
		shareClient(f, p),
		roomPanel(f, p.Room),
		shareDevices(f, p.Devices),
		LinkBelow(f.at(address.Aside), "care", "Something wrong with this job?", g.Attr("data-server")),
	}
}

func shareForm(id, action string, inside ...g.Node) g.Node {
	return PostForm(ByServer, id, action, h.Class("deed"), g.Group(inside))
}

func freshLink(l *FreshLink) g.Node {
	if l == nil {
		return nil
	}
	title, lead := "Link for "+l.Name, "Let "+l.Name+" scan this, or send the link. It is shown only once."
	switch {
	case l.Client:
		title, lead = "Link for your client", "Send it, or let the client scan this. It is shown only once."
	case l.Owner:
		title, lead = "Link for your other device", "Scan it with that device. Anyone who opens it becomes owner."
	}
	return PanelOf("fresh", title, "", h.ID("fresh-link"), h.Role("status"),
		h.P(g.Text(lead)),
		QR(l.QR, "The link as a code to scan"),
		h.Label(h.Class("vh"), h.For("fresh-url"), g.Text("The link")),
		h.Input(h.ID("fresh-url"), h.Type("text"), h.ReadOnly(), h.Value(l.URL)),
		ButtonRow(
			Button(Plain, g.Attr("hidden"), h.Data("share", l.URL), Icon("share"), g.Text("Send it")),
			Button(Plain, g.Attr("hidden"), h.Data("copy", l.URL), g.Text("Copy it"))))
}

func linkForm(f Frame, state form.State, others, open bool) g.Node {
	roles := []job.Choice{{Value: string(job.Helper), Label: "Helper: ticks and counts"},
		{Value: string(job.Lead), Label: "Lead: also changes pieces and cards"}}
	chosen := state.Get(ShareRole)
	if chosen == "" {
		chosen = string(job.Helper)
	}
	typed := state.Values
	field := func(name, label, help string, kind job.FieldKind, needed bool) g.Node {
		return FieldInput(
			Field{Field: job.Field{Name: name, Label: label, Help: help, Kind: kind, Max: 60, Required: needed}, Typed: typed,
				Errors: state.Errors, Units: f.Units},
		)
	}
	title := "New link"
	if others {
		title = "A link for somebody else"
	}
	return Folded("new-link", title, open || !state.OK(),
		shareForm("share-new", f.at(address.NewLink), Fields(
			field(ShareName, "Name", "Shown next to what they tick.", job.Text, true),
			FieldInput(
				Field{Field: job.Field{Name: ShareRole, Label: "What they may do", Kind: job.OneOf, Choices: roles},
					Typed: map[string][]string{ShareRole: {chosen}}, Errors: state.Errors},
			),
			field(ShareEnds, "Ends after",
				"Empty: three days after the event.", job.Day, false),
			Submit(Primary, g.Text(labelMakeLink)))))
}

func linkList(f Frame, links []Link) g.Node {
	if len(links) == 0 {
		return nil
	}
	return ListPanel(h.ID("links"), g.Map(links, func(l Link) g.Node { return linkRow(f, l) }))
}

func linkRow(f Frame, l Link) g.Node {
	return SplitRow(domID("link", l.ID), []g.Node{RowTitle(l.Name), Small(linkLine(f, l)), linkDevices(f, l)},
		g.If(!l.Revoked,
			shareForm(domID("end", l.ID), f.at(address.EndLink),
				Hidden(ShareLink, l.ID),
				Submit(Quiet, g.Text("End "+l.Name+"’s link")))))
}

var roleNames = map[job.Role]string{job.Helper: "Helper", job.Lead: "Lead"}

func linkLine(f Frame, l Link) string {
	line := roleNames[l.Role]
	switch {
	case l.Revoked:
		line += ", ended"
	case l.Ends > 0 && l.Ends < f.Now:
		line += ", ended " + Ago(f.Now, l.Ends)
	case l.Ends > 0:
		line += ", until the end of " + Day(l.Until)
	}
	if l.As != "" {
		line += ", goes by " + l.As
	}
	if l.LastSeen > 0 {
		return line + ", seen " + Ago(f.Now, l.LastSeen)
	}
	return line + ", not opened yet"
}

// heldBack draws the operations that wait for the owner. Those made before their link ended are ticked.
func heldBack(f Frame, held []Held) g.Node {
	if len(held) == 0 {
		return nil
	}
	return Panel("Sent after a link ended", "", h.ID("held"),
		Soft("Not counted until you accept it. Ticked: done before the link ended."),
		PostForm(ByServer, "held-form", f.at(address.KeepHeld),
			List(g.Map(held, func(o Held) g.Node {
				return h.Li(h.Label(h.Class("check row"),
					h.Input(h.Type("checkbox"), h.ID(domID("held", o.Op)), h.Name(ShareOp), h.Value(o.Op),
						g.If(o.BeforeEnd, h.Checked())),
					RowText(o.What,
						h.Span(h.Class("soft"), g.Textf("%s, %s", o.Name, f.Stamp(o.When)),
							g.If(!o.BeforeEnd, g.Text(", after the link ended"))))))
			})),
			ButtonRow(
				Submit(Primary, g.Text("Accept ticked")),
				Submit(Quiet, h.FormAction(f.at(address.DropHeld)), g.Text("Reject ticked")))))
}

// cameLate lists what arrived after the job was archived. It counts already.
func cameLate(f Frame, late []Held) g.Node {
	if len(late) == 0 {
		return nil
	}
	return Panel("Sent after the job was archived", "", h.ID("late"),
		Soft("Counted already."),
		List(g.Map(late, func(o Held) g.Node {
			return SplitRow(domID("late", o.Op), []g.Node{RowTitle(o.What), Small(o.Name + ", " + f.Stamp(o.When))})
		})))
}
