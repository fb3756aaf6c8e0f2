package view

import (
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
)

// Phone draws the state of this phone: what it keeps, what is not shared yet, what needs a person, how pages look. Rows
// are the jobs it keeps; each can be saved as a file.
func Phone(f Frame, rows []JobRow) g.Node {
	d := f.Device
	return g.Group{
		Heading("", "This phone"),
		attention(f),
		plainHTTP(f),
		Columns(g.Group{phoneSharing(f), phoneKept(f, d), g.If(!f.OverHTTP, phoneHome(d))},
			g.Group{
				phoneLook(),
				phoneFiles(f, rows),
				phoneJobs(f, rows),
				securityLink(f),
				phoneVersion(d),
				phoneDevices(f),
				phoneLeave(f),
			}),
	}
}

func attention(f Frame) g.Node {
	if len(f.Device.Attention) == 0 {
		return nil
	}
	return Panel("", "", h.ID("attention"),
		PanelHead("care", "Needs a look", ""),
		Soft("The server refused these. They are still here."),
		List(g.Map(f.Device.Attention, func(a Attention) g.Node {
			return SplitRow(domID("look", a.ID), []g.Node{
				RowTitle(a.What),
				Small(orElse(a.Title, "Job") + " · " + Ago(f.Now, a.When)),
				h.Span(g.Text(a.Why)),
			},
				PostForm(ByCore, domID("aside", a.ID), address.Phone.Path(),
					Hidden(FieldAct, "aside"),
					Hidden(FieldOp, a.ID),
					Submit(Quiet, g.Text("Dismiss"))))
		})))
}

func phoneSharing(f Frame) g.Node {
	d := f.Device
	if !d.Here {
		return Panel("Sharing", "",
			h.P(g.Text("This phone keeps nothing yet. Open the app once with scripts and signal; then it works without.")))
	}
	stands := d
	stands.Attention = nil // they have a panel of their own
	tone, line := stateLine(stands, f.Now)
	return Panel("Sharing", "",
		h.P(h.ID("stands"), h.Class("sentence"), h.Data("tone", tone), h.Data("shared", strconv.FormatInt(d.Shared, 10)),
			g.Text(orElse(line, "Nothing to share yet."))),
		g.If(d.Trouble != "", Notice(Changed, "care", d.Trouble)),
		g.If(
			d.Closed != "",
			h.P(g.Text("Your link has ended. What waits here is still sent, for the owner to accept.")),
		),
		Facts(Fact(labelNotShared, number(d.Waiting)),
			g.If(d.Oldest > 0, Fact("Oldest", Ago(f.Now, d.Oldest))),
			Fact("Last shared", lastShared(f)),
			Fact("Signal", signal(d))),
		clockOff(d),
		Button(Plain, g.Attr("data-sync"), g.Text("Share now")),
	)
}

func signal(d Device) string {
	switch {
	case d.Online:
		return "yes"
	case d.Asked:
		return "no answer"
	}
	return "not tried yet"
}

func lastShared(f Frame) string {
	if f.Device.Shared == 0 {
		return "never"
	}
	return Ago(f.Now, f.Device.Shared)
}

// clockOff warns of a clock that is wrong by two minutes or more.
func clockOff(d Device) g.Node {
	off := d.ClockOff / 60000
	if off > -2 && off < 2 {
		return nil
	}
	way := "ahead"
	if off < 0 {
		off, way = -off, "behind"
	}
	return Notice(Changed, "clock",
		"This phone’s clock is "+minutes(float64(off))+" "+way+". Nothing is lost, but times may look wrong.")
}

func phoneKept(f Frame, d Device) g.Node {
	if !d.Here {
		return nil
	}
	promise := "The browser may clear this if the phone runs out of room. Add Garlandry to the home screen to prevent it."
	switch {
	case d.Platform.Forgets() && !d.Installed && d.Platform == MacSafari:
		promise = "Safari deletes this after 7 days without a visit. Add it to the Dock."
	case d.Platform.Forgets() && !d.Installed:
		promise = "Safari deletes this after 7 days without a visit. Add it to the Home Screen."
	case d.Persisted:
		promise = "The browser has promised to keep this."
	case d.Installed:
		promise = "The browser may clear this if the phone runs out of room."
	}
	return Panel("Kept on this phone", "", Facts(Fact("Jobs", number(d.Jobs)),
		Fact("Ticks, counts and changes", number(d.Stored)),
		g.If(d.Bytes > 0, Fact("Size", bytesWords(d.Bytes)))),
		Soft(promise))
}

// phoneHome says how to add the app to the home screen. On some phones the installed app has a storage of its own, so
// what waits here must be shared first.
func phoneHome(d Device) g.Node {
	if d.Installed {
		return nil
	}
	return Panel("On the home screen", "", h.ID("home-screen"),
		g.Iff(d.Waiting > 0, func() g.Node {
			return Notice(Waits, "wait", "First share what waits here: the installed app may start empty.")
		}),
		g.Iff(d.Waiting == 0, func() g.Node { return installSteps(d) }),
		g.Iff(d.Waiting == 0 && !d.Platform.OwnStorage(), appCode),
		Soft("Opened inside a messenger? Switch to the phone’s browser: the messenger may delete your changes."),
	)
}

// bytesWords writes an amount of storage: "840 kB", "1.2 MB".
func bytesWords(n int64) string {
	if n < 1000*1000 {
		return strconv.FormatInt((n+999)/1000, 10) + " kB"
	}
	return measure.FormatNumber(float64(n)/1e6, 1) + " MB"
}

// phoneLook draws the choice of a theme: buttons for the script, a form for people without scripts.
func phoneLook() g.Node {
	themes := Themes()
	return Panel("Look", "",
		Soft("Bright sun has the most contrast, for outdoors."),
		ButtonRow(
			g.Map(themes, func(c job.Choice) g.Node {
				return Button(Plain, h.Data("theme-set", c.Value),
					g.If(c.Value == "sun", Icon("sun")),
					g.Text(c.Label))
			})),
		h.NoScript(PostForm(ByServer, "look", address.Phone.Path(),
			Hidden(FieldAct, "theme"),
			h.Label(h.For("look-theme"), g.Text("Look without scripts")),
			h.Select(h.ID("look-theme"), h.Name("theme"),
				g.Map(themes, func(x job.Choice) g.Node { return h.Option(h.Value(x.Value), g.Text(x.Label)) })),
			Submit(Plain, g.Text("Use it")))))
}

func phoneFiles(f Frame, rows []JobRow) g.Node {
	if len(rows) == 0 || !f.Owns() {
		return nil
	}
	return Panel("Save a job as a file", "", List(g.Map(rows, func(r JobRow) g.Node {
		return h.Li(h.A(h.Class("row"), h.Href(address.Export.Path(r.ID)), h.Download(""),
			RowText(untitled(r.Title)),
			Icon("share")))
	})))
}

func phoneVersion(d Device) g.Node {
	if d.Version == "" && d.Update == "" {
		return nil
	}
	return Panel("Version", "",
		h.P(g.Text(orElse(d.Version, "unknown"))),
		g.If(
			d.Update != "",
			h.Div(h.Class("whose"),
				h.P(g.Text("Version "+d.Update+" is ready. Nothing is lost.")),
				Button(Primary, g.Attr("data-update"), g.Text("Update"))),
		),
	)
}

// phoneDevices leads to the list of the visitor's devices.
func phoneDevices(f Frame) g.Node {
	if f.Role == "" {
		return nil
	}
	return LinkBelow(address.Devices.Path(), "phone", LabelDevices, g.Attr("data-server"))
}
