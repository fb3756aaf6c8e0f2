package view

import (
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/calc/measure"
)

// Phone draws how this phone stands: what is kept, what waits, what needs a person, how it looks. Rows are the jobs
// held here, to be saved as files.
func Phone(f Frame, rows []JobRow) g.Node {
	d := f.Device
	return g.Group{
		Heading("", "This phone"),
		attention(f),
		h.Div(h.Class("columns"),
			h.Div(phoneSharing(f), phoneKept(f, d)),
			h.Div(phoneLook(), phoneFiles(f, rows), phoneVersion(d))),
	}
}

func attention(f Frame) g.Node {
	if len(f.Device.Attention) == 0 {
		return g.Group{}
	}
	return h.Section(h.Class("panel"), h.ID("attention"), h.Div(h.Class("panelhead"), h.H2(Icon("care"), g.Text("Needs a look"))),
		h.P(h.Class("soft"), g.Text("These could not be taken as they are. Nothing was thrown away.")),
		h.Ul(h.Class("list inset"), g.Map(f.Device.Attention, func(a Attention) g.Node {
			return h.Li(h.ID(domID("look", a.ID)), h.Class("split"),
				h.Div(h.Class("rowtext"), h.Span(h.Class("rowtitle"), g.Text(a.What)), h.Span(h.Class("soft"), g.Text(orElse(a.Title, "Job")+" · "+Ago(f.Now, a.When))), h.Span(g.Text(a.Why))),
				h.Form(h.Method("post"), h.Action("/phone"), h.ID(domID("aside", a.ID)), g.Attr("data-core"), Hidden(FieldAct, "aside"), Hidden(FieldOp, a.ID), h.Button(h.Type("submit"), h.Class("quiet"), g.Text("Put aside"))))
		})))
}

func phoneSharing(f Frame) g.Node {
	d := f.Device
	if !d.Here {
		return Panel("Sharing", "", h.P(g.Text("This page comes straight from the server: nothing is kept on the phone yet.")),
			h.P(h.Class("soft"), g.Text("Open it with scripts on, once and with signal, and it works without signal from then on.")))
	}
	stands := d
	stands.Attention = nil // they have a panel of their own
	return Panel("Sharing", "",
		h.P(h.Class("sentence"), g.Text(orElse(StateLine(stands, f.Now), "Nothing to share yet."))),
		g.If(d.Trouble != "", h.P(h.Class("delta"), Icon("care"), g.Text(d.Trouble))),
		g.If(d.Closed != "", h.P(g.Text("The link you came by has ended. What waits here is still handed in and kept for whoever runs the job to accept."))),
		h.Dl(h.Class("facts"),
			fact("Waiting here", number(d.Waiting)),
			g.If(d.Oldest > 0, fact("Oldest of them", Ago(f.Now, d.Oldest))),
			fact("Last shared", lastShared(f)),
			fact("Signal", map[bool]string{true: "the server answers", false: "no answer just now"}[d.Online])),
		clockOff(d),
		h.Button(h.Type("button"), g.Attr("data-sync"), g.Text("Share now")))
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
		return g.Group{}
	}
	way := "ahead"
	if off < 0 {
		off, way = -off, "behind"
	}
	return h.P(h.Class("delta"), Icon("clock"), g.Text("This phone's clock is "+minutes(float64(off))+" "+way+". Nothing is lost by that; times shown may be off."))
}

func phoneKept(f Frame, d Device) g.Node {
	if !d.Here {
		return g.Group{}
	}
	promise := "The browser may clear it when the phone runs short of room. Put Garlandry on the home screen to make that unlikely."
	if d.Persisted {
		promise = "The browser has promised to keep it."
	}
	return Panel("Kept on this phone", "", h.Dl(h.Class("facts"),
		fact("Jobs", number(d.Jobs)), fact("Ticks, counts and changes", number(d.Stored)),
		g.If(d.Bytes > 0, fact("Room taken", bytesWords(d.Bytes)))),
		h.P(h.Class("soft"), g.Text(promise)))
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
	return Panel("Look", "",
		h.P(h.Class("soft"), g.Text("Bright sun gives the strongest contrast, for working outdoors.")),
		h.Div(h.Class("choices"), g.Map(Themes(), func(c job.Choice) g.Node {
			return h.Button(h.Type("button"), g.Attr("data-theme-set", c.Value), g.If(c.Value == "sun", Icon("sun")), g.Text(c.Label))
		})),
		h.NoScript(h.Form(h.Method("post"), h.Action("/phone"), h.ID("look"), g.Attr("data-server"), Hidden(FieldAct, "theme"),
			h.Label(h.For("look-theme"), g.Text("Look without scripts")),
			h.Select(h.ID("look-theme"), h.Name("theme"), g.Map(Themes(), func(c job.Choice) g.Node { return h.Option(h.Value(c.Value), g.Text(c.Label)) })),
			h.Button(h.Type("submit"), g.Text("Use it")))))
}

func phoneFiles(f Frame, rows []JobRow) g.Node {
	if len(rows) == 0 || !f.Owns() {
		return g.Group{}
	}
	return Panel("Save a job as a file", "", h.Ul(h.Class("list inset"), g.Map(rows, func(r JobRow) g.Node {
		return h.Li(h.A(h.Class("row"), h.Href("/jobs/"+r.ID+"/export"), h.Download(""), h.Span(h.Class("rowtext"), h.Span(h.Class("rowtitle"), g.Text(untitled(r.Title)))), Icon("share")))
	})))
}

func phoneVersion(d Device) g.Node {
	if d.Version == "" && d.Update == "" {
		return g.Group{}
	}
	return Panel("Version", "", h.P(g.Text(orElse(d.Version, "unknown"))),
		g.If(d.Update != "", h.Div(h.Class("whose"), h.P(g.Text("Version "+d.Update+" is ready. Your place and everything kept here stay.")), h.Button(h.Type("button"), h.Class("go"), g.Attr("data-update"), g.Text("Update")))))
}
