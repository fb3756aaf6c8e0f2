package view

import (
	g "maragu.dev/gomponents"

	"garlandry/app/job"
	"garlandry/pwa/form"
)

// Names of the inputs by which a link is made or changed. Forms post to /jobs/J/share/new, /end, /keep, /drop, /owner
// and /device; only the server answers them.
const (
	ShareName   = "name"
	ShareRole   = "role"
	ShareEnds   = "ends"   // a day; empty: no end
	ShareLink   = "link"   // id of a link
	ShareOp     = "op"     // id of an operation held back; there may be many
	ShareDevice = "device" // id of a device of the owner
)

// SharePage is what the page of helper links shows.
type SharePage struct {
	Links []Link
	Held  []Held
	Late  []Held     // came in after the job was put away, and counts
	State form.State // of the form for a new link
	Fresh *FreshLink // just made

	Devices []OwnDevice
	Room    []RoomUse // who filled the job, the most first
}

// OwnDevice is a device of the owner. Times are in Unix milliseconds.
type OwnDevice struct {
	ID, Name   string
	Made, Seen int64
	Ended      int64 // 0: it is let in
	Installed  bool  // an installed app that came from another of the devices
	This       bool  // the one that asks
}

// FreshLink is a link that was just made: the only time its address can be shown.
type FreshLink struct {
	Name, URL string
	Owner     bool // for another device of the owner
	QR        [][]bool
}

// Held is an operation that came in after its link had ended: it waits for the owner.
type Held struct {
	Op, Name, What string
	When           int64 // Unix ms
	BeforeEnd      bool  // it was made before the link had ended
}

// Share draws the helper links of a job, for its owner.
func Share(f Frame, p SharePage) g.Node {
	return these(
		Heading("", "Share"),
		txt(`p class="lead"`,
			"One link for each helper. They see cards, packing and counts, never prices or the client. No account is needed."),
		freshLink(p.Fresh),
		heldBack(f, p.Held),
		cameLate(f, p.Late),
		linkForm(f, p.State, len(p.Links) == 0 && p.Fresh == nil),
		linkList(f, p.Links),
		roomPanel(f, p.Room),
		ownDevices(f, p.Devices),
		html(`<p class="below"><a class="plainlink" href="$" data-server>{care}Something spoils this job?</a></p>`,
			texts{f.at("share/aside")}),
	)
}

// ownDevices lists the owner's devices, each but the one in hand with a way to shut it out.
func ownDevices(f Frame, devices []OwnDevice) g.Node {
	return html(`<section class="panel part" id="own-devices"><div class="panelhead"><h2>Your devices</h2></div>
		<p class="soft">Each sees and changes every job. End one that is lost or given away: it gets nothing from then on, and what it still hands in waits here for you to accept. Apps installed from it end with it.</p>
		<ul class="links">{}</ul>
		<h3>Another device of yours</h3>
		<p class="soft">Makes a link with all your rights, good once and for a short time. Open it on the other device only.</p>
		{}</section>`, nil,
		each(len(devices), func(i int) g.Node {
			d := devices[i]
			name := d.Name
			if name == "" {
				name = "Unnamed device"
			}
			return html(
				`<li id="$"><div class="row">
				<span class="rowtext"><span class="rowtitle">$</span><span class="soft">$</span></span>
				{}</div></li>`,
				texts{domID("device", d.ID), name, deviceLine(f, d)},
				g.If(
					!d.This && d.Ended == 0,
					shareForm(domID("end-device", d.ID), f.at("share/device"), Hidden(ShareDevice, d.ID),
						txt(`button type="submit" class="quiet"`, "End "+name)),
				),
			)
		}),
		shareForm("share-owner", f.at("share/owner"), fixed(`<button type="submit">{phone}Make the link</button>`)))
}

func deviceLine(f Frame, d OwnDevice) string {
	line := "let in " + f.Stamp(d.Made)
	if d.Installed {
		line = "an installed app, " + line
	}
	switch {
	case d.This:
		return line + ", the one you are on"
	case d.Ended > 0:
		return line + ", ended " + f.Stamp(d.Ended)
	}
	return line + ", seen " + Ago(f.Now, d.Seen)
}

func shareForm(id, action string, inside ...g.Node) g.Node {
	return html(`<form id="$" class="deed" method="post" action="$" data-server>{}</form>`, texts{id, action},
		these(inside...))
}

func freshLink(l *FreshLink) g.Node {
	if l == nil {
		return nothing
	}
	title, lead := "Link for "+l.Name, "Let "+l.Name+" scan this, or send the link. It is shown only now: copy it before you leave."
	if l.Owner {
		title, lead = "Link for your other device", "Scan it with that device. Whoever opens it becomes owner, so give it to nobody."
	}
	return html(`<section class="panel fresh" id="fresh-link" role="status"><div class="panelhead"><h2>$</h2></div>
		<p>$</p>{}
		<label class="vh" for="fresh-url">The link</label><input id="fresh-url" type="text" readonly value="$">
		<div class="choices">
			<button type="button" hidden data-share="$">{share}Send it</button>
			<button type="button" hidden data-copy="$">Copy it</button></div></section>`, texts{title, lead, l.URL, l.URL, l.URL},
		QR(l.QR, "The link as a code to scan"))
}

func linkForm(f Frame, state form.State, open bool) g.Node {
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
	return Folded("new-link", "New link", open || !state.OK(),
		shareForm(
			"share-new",
			f.at("share/new"),
			field(ShareName, "Name", "Whose link it is; shown beside what they tick.", job.Text, true),
			FieldInput(
				Field{Field: job.Field{Name: ShareRole, Label: "What they may do", Kind: job.OneOf, Choices: roles},
					Typed: map[string][]string{ShareRole: {chosen}}, Errors: state.Errors},
			),
			field(ShareEnds, "Ends after",
				"The last day on which the link works, at the job's place; empty: three days after the event.", job.Day, false),
			txt(`button type="submit" class="go"`, "Make the link"),
		))
}

func linkList(f Frame, links []Link) g.Node {
	if len(links) == 0 {
		return nothing
	}
	return el(`ul class="panel links" id="links"`, each(len(links), func(i int) g.Node {
		l := links[i]
		return html(
			`<li id="$"><div class="row">
				<span class="rowtext"><span class="rowtitle">$</span><span class="soft">$</span></span>
				{}</div></li>`,
			texts{domID("link", l.ID), l.Name, linkLine(f, l)},
			g.If(
				!l.Revoked,
				shareForm(domID("end", l.ID), f.at("share/end"), Hidden(ShareLink, l.ID),
					txt(`button type="submit" class="quiet"`, "End "+l.Name+"’s link")),
			),
		)
	}))
}

var roleWords = glossary{{string(job.Helper), "Helper"}, {string(job.Lead), "Lead"}}

func linkLine(f Frame, l Link) string {
	line := roleWords.of(string(l.Role))
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

// heldBack draws what waits for the owner: one form, in which what was made before its link ended is ticked.
func heldBack(f Frame, held []Held) g.Node {
	if len(held) == 0 {
		return nothing
	}
	return html(`<section class="panel" id="held"><div class="panelhead"><h2>Came in after a link had ended</h2></div>
		<p class="soft">Nothing of this counts until you take it in. Ticked here is what was done before its link ended, as far as the clocks tell.</p>
		<form id="held-form" method="post" action="$" data-server>
			<ul>{}</ul>
			<div class="choices"><button type="submit" class="go">Take in what is ticked</button>
				<button type="submit" formaction="$" class="quiet">Leave out what is ticked</button></div></form></section>`, texts{f.at("share/keep"), f.at("share/drop")},
		each(len(held), func(i int) g.Node {
			o := held[i]
			return html(`<li><label class="check"><input type="checkbox" id="$" name="$" value="$"{}>
				<span class="rowtext"><span class="rowtitle">$</span><span class="soft">$, ${}</span></span></label></li>`, texts{domID("held", o.Op), ShareOp, o.Op, o.What, o.Name, f.Stamp(o.When)},
				set(o.BeforeEnd, "checked"), g.If(!o.BeforeEnd, g.Text(", after the link had ended")))
		}))
}

// cameLate lists what came in after the job was put away. It counts already; the list only says so.
func cameLate(f Frame, late []Held) g.Node {
	if len(late) == 0 {
		return nothing
	}
	return html(`<section class="panel" id="late"><div class="panelhead"><h2>Came in after the job was put away</h2></div>
		<p class="soft">It counts. The times are those at which it was done.</p>
		<ul>{}</ul></section>`, nil,
		each(len(late), func(i int) g.Node {
			o := late[i]
			return html(`<li id="$"><div class="row">
					<span class="rowtext"><span class="rowtitle">$</span><span class="soft">$, $</span></span></div></li>`, texts{domID("late", o.Op), o.What, o.Name, f.Stamp(o.When)})
		}))
}
