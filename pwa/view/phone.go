package view

import (
	"fmt"
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
)

// Phone draws how this phone stands: what is kept, what waits, what needs a person, how it looks. Rows are the jobs
// held here, to be saved as files.
func Phone(f Frame, rows []JobRow) g.Node {
	d := f.Device
	return g.Group{
		Heading("", "This phone"),
		attention(f),
		Columns(g.Group{phoneSharing(f), phoneKept(f, d), phoneHome(d)},
			g.Group{
				phoneLook(),
				phoneFiles(f, rows),
				phoneJobs(f, rows),
				securityLink(f),
				phoneVersion(d),
				phoneLeave(f),
			}),
	}
}

func attention(f Frame) g.Node {
	if len(f.Device.Attention) == 0 {
		return nil
	}
	return h.Section(h.Class("panel"), h.ID("attention"),
		h.Div(h.Class("panelhead"), h.H2(Icon("care"), g.Text("Needs a look"))),
		Soft("These could not be taken as they are. Nothing was thrown away."),
		List(g.Map(f.Device.Attention, func(a Attention) g.Node {
			return h.Li(h.ID(domID("look", a.ID)), h.Class("split"),
				h.Div(h.Class("rowtext"),
					RowTitle(a.What),
					Small(fmt.Sprintf("%s · %s", orElse(a.Title, "Job"), Ago(f.Now, a.When))),
					h.Span(g.Text(a.Why))),
				PostForm(ByCore, domID("aside", a.ID), address.Phone.Path(),
					Hidden(FieldAct, "aside"),
					Hidden(FieldOp, a.ID),
					Submit(Quiet, g.Text("Put aside"))))
		})))
}

func phoneSharing(f Frame) g.Node {
	d := f.Device
	if !d.Here {
		return Panel("Sharing", "", h.P(g.Text("This page comes straight from the server: nothing is kept on the phone yet.")),
			Soft("Open it with scripts on, once and with signal, and it works without signal from then on."))
	}
	stands := d
	stands.Attention = nil // they have a panel of their own
	return Panel(
		"Sharing",
		"",
		h.P(h.Class("sentence"), g.Text(orElse(StateLine(stands, f.Now), "Nothing to share yet."))),
		g.If(d.Trouble != "", Notice(Changed, "care", d.Trouble)),
		g.If(
			d.Closed != "",
			h.P(g.Text("The link you came by has ended. What waits here is still handed in and kept for whoever runs the job to accept.")),
		),
		Facts(Fact("Waiting here", number(d.Waiting)),
			g.If(d.Oldest > 0, Fact("Oldest of them", Ago(f.Now, d.Oldest))),
			Fact("Last shared", lastShared(f)),
			Fact("Signal",
				pick(d.Online, "the server answers", pick(d.Asked, "no answer just now", "not asked yet")))),
		clockOff(d),
		h.Button(h.Type("button"), g.Attr("data-sync"), g.Text("Share now")),
	)
}

func lastShared(f Frame) string {
	if f.Device.Shared == 0 {
		return "never"
	}
	return Ago(f.Now, f.Device.Shared)
}

// clockOff speaks up only when the clock is off by more than two minutes.
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
		"This phone's clock is "+minutes(float64(off))+" "+way+". Nothing is lost by that; times shown may be off.")
}

func phoneKept(f Frame, d Device) g.Node {
	if !d.Here {
		return nil
	}
	promise := "The browser may clear it when the phone runs short of room. Put Garlandry on the home screen to make that unlikely."
	if d.Persisted {
		promise = "The browser has promised to keep it."
	}
	return Panel("Kept on this phone", "", Facts(Fact("Jobs", number(d.Jobs)),
		Fact("Ticks, counts and changes", number(d.Stored)),
		g.If(d.Bytes > 0, Fact("Room taken", bytesWords(d.Bytes)))),
		Soft(promise))
}

// phoneHome says how the app comes onto the home screen, and what to do about a messenger's own window. On some phones
// the home screen's app has a storage of its own, so what waits here must be shared first.
func phoneHome(d Device) g.Node {
	first := "It may begin empty there: open your link in it once."
	if d.Waiting > 0 {
		first = "First share what waits here: it may begin empty there."
	}
	return Panel(
		"On the home screen",
		"",
		h.P(g.Text("In the browser's menu take Install, or under Share take Add to Home Screen, and it opens like any app. "+first)),
		Soft("If a messenger opened this page in a window of its own, open it in the phone's browser instead: what such a window keeps may be thrown away."),
	)
}

// bytesWords writes an amount of storage: "840 kB", "1.2 MB".
func bytesWords(n int64) string {
	if n < 1000*1000 {
		return strconv.FormatInt((n+999)/1000, 10) + " kB"
	}
	return measure.FormatNumber(float64(n)/1e6, 1) + " MB"
}

// phoneLook draws the choice of how pages look: buttons for the script, a form for who has none.
func phoneLook() g.Node {
	themes := Themes()
	return Panel("Look", "",
		Soft("Bright sun gives the strongest contrast, for working outdoors."),
		h.Div(h.Class("choices"),
			g.Map(themes, func(c job.Choice) g.Node {
				return h.Button(h.Type("button"), h.Data("theme-set", c.Value),
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
	return Panel(
		"Version",
		"",
		h.P(g.Text(orElse(d.Version, "unknown"))),
		g.If(
			d.Update != "",
			h.Div(h.Class("whose"),
				h.P(g.Text("Version "+d.Update+" is ready. Your place and everything kept here stay.")),
				h.Button(h.Type("button"), h.Class("go"), g.Attr("data-update"), g.Text("Update"))),
		),
	)
}
