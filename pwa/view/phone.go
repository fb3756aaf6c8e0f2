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
		el(`div class="columns"`,
			el("div", phoneSharing(f), phoneKept(f, d)),
			el("div", phoneLook(), phoneFiles(f, rows), phoneVersion(d))),
	}
}

func attention(f Frame) g.Node {
	if len(f.Device.Attention) == 0 {
		return g.Group{}
	}
	return el(`section class="panel" id="attention"`, el(`div class="panelhead"`, el("h2", Icon("care"), g.Text("Needs a look"))),
		txt(`p class="soft"`, "These could not be taken as they are. Nothing was thrown away."),
		el(`ul class="list inset"`, g.Map(f.Device.Attention, func(a Attention) g.Node {
			return el("li", h.ID(domID("look", a.ID)), h.Class("split"),
				el(`div class="rowtext"`, txt(`span class="rowtitle"`, a.What), txt(`span class="soft"`, orElse(a.Title, "Job")+" · "+Ago(f.Now, a.When)), txt("span", a.Why)),
				el(`form method="post" action="/phone"`, h.ID(domID("aside", a.ID)), g.Attr("data-core"), Hidden(FieldAct, "aside"), Hidden(FieldOp, a.ID), txt(`button type="submit" class="quiet"`, "Put aside")))
		})))
}

func phoneSharing(f Frame) g.Node {
	d := f.Device
	if !d.Here {
		return Panel("Sharing", "", txt("p", "This page comes straight from the server: nothing is kept on the phone yet."),
			txt(`p class="soft"`, "Open it with scripts on, once and with signal, and it works without signal from then on."))
	}
	stands := d
	stands.Attention = nil // they have a panel of their own
	return Panel("Sharing", "",
		txt(`p class="sentence"`, orElse(StateLine(stands, f.Now), "Nothing to share yet.")),
		g.If(d.Trouble != "", el(`p class="delta"`, Icon("care"), g.Text(d.Trouble))),
		g.If(d.Closed != "", txt("p", "The link you came by has ended. What waits here is still handed in and kept for whoever runs the job to accept.")),
		el(`dl class="facts"`,
			fact("Waiting here", number(d.Waiting)),
			g.If(d.Oldest > 0, fact("Oldest of them", Ago(f.Now, d.Oldest))),
			fact("Last shared", lastShared(f)),
			fact("Signal", map[bool]string{true: "the server answers", false: "no answer just now"}[d.Online])),
		clockOff(d),
		txt(`button type="button" data-sync`, "Share now"))
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
	return el(`p class="delta"`, Icon("clock"), g.Text("This phone's clock is "+minutes(float64(off))+" "+way+". Nothing is lost by that; times shown may be off."))
}

func phoneKept(f Frame, d Device) g.Node {
	if !d.Here {
		return g.Group{}
	}
	promise := "The browser may clear it when the phone runs short of room. Put Garlandry on the home screen to make that unlikely."
	if d.Persisted {
		promise = "The browser has promised to keep it."
	}
	return Panel("Kept on this phone", "", el(`dl class="facts"`,
		fact("Jobs", number(d.Jobs)), fact("Ticks, counts and changes", number(d.Stored)),
		g.If(d.Bytes > 0, fact("Room taken", bytesWords(d.Bytes)))),
		txt(`p class="soft"`, promise))
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
		txt(`p class="soft"`, "Bright sun gives the strongest contrast, for working outdoors."),
		el(`div class="choices"`, g.Map(Themes(), func(c job.Choice) g.Node {
			return el(`button type="button"`, g.Attr("data-theme-set", c.Value), g.If(c.Value == "sun", Icon("sun")), g.Text(c.Label))
		})),
		el("noscript", el(`form method="post" action="/phone" id="look" data-server`, Hidden(FieldAct, "theme"),
			txt(`label for="look-theme"`, "Look without scripts"),
			el(`select id="look-theme" name="theme"`, g.Map(Themes(), func(c job.Choice) g.Node { return el("option", h.Value(c.Value), g.Text(c.Label)) })),
			txt(`button type="submit"`, "Use it"))))
}

func phoneFiles(f Frame, rows []JobRow) g.Node {
	if len(rows) == 0 || !f.Owns() {
		return g.Group{}
	}
	return Panel("Save a job as a file", "", el(`ul class="list inset"`, g.Map(rows, func(r JobRow) g.Node {
		return el("li", el(`a class="row"`, h.Href("/jobs/"+r.ID+"/export"), h.Download(""), el(`span class="rowtext"`, txt(`span class="rowtitle"`, untitled(r.Title))), Icon("share")))
	})))
}

func phoneVersion(d Device) g.Node {
	if d.Version == "" && d.Update == "" {
		return g.Group{}
	}
	return Panel("Version", "", txt("p", orElse(d.Version, "unknown")),
		g.If(d.Update != "", el(`div class="whose"`, txt("p", "Version "+d.Update+" is ready. Your place and everything kept here stay."), txt(`button type="button" class="go" data-update`, "Update"))))
}
