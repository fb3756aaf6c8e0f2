package view

import (
	"strconv"

	g "maragu.dev/gomponents"

	"garlandry/calc/measure"
)

// Phone draws how this phone stands: what is kept, what waits, what needs a person, how it looks. Rows are the jobs
// held here, to be saved as files.
func Phone(f Frame, rows []JobRow) g.Node {
	d := f.Device
	return these(
		Heading("", "This phone"),
		attention(f),
		html(`<div class="columns">
			<div>{}{}</div>
			<div>{}{}{}</div></div>`, nil, phoneSharing(f), these(phoneKept(f, d), phoneHome(d)), phoneLook(),
			these(phoneFiles(f, rows), phoneJobs(f, rows), securityLink(f)), these(phoneVersion(d), phoneLeave(f))),
	)
}

func attention(f Frame) g.Node {
	if len(f.Device.Attention) == 0 {
		return nothing
	}
	return html(`<section class="panel" id="attention"><div class="panelhead"><h2>{care}Needs a look</h2></div>
		<p class="soft">These could not be taken as they are. Nothing was thrown away.</p>
		<ul class="list inset">{}</ul></section>`, nil,
		each(len(f.Device.Attention), func(i int) g.Node {
			a := f.Device.Attention[i]
			return html(`<li id="$" class="split">
				<div class="rowtext"><span class="rowtitle">$</span><span class="soft">$ · $</span><span>$</span></div>
				<form method="post" action="/phone" id="$" data-core>{}{}<button type="submit" class="quiet">Put aside</button></form></li>`, texts{domID("look", a.ID), a.What, orElse(a.Title, "Job"), Ago(f.Now, a.When), a.Why, domID("aside", a.ID)},
				Hidden(FieldAct, "aside"), Hidden(FieldOp, a.ID))
		}))
}

func phoneSharing(f Frame) g.Node {
	d := f.Device
	if !d.Here {
		return Panel("Sharing", "", txt("p", "This page comes straight from the server: nothing is kept on the phone yet."),
			txt(`p class="soft"`, "Open it with scripts on, once and with signal, and it works without signal from then on."))
	}
	stands := d
	stands.Attention = nil // they have a panel of their own
	return Panel(
		"Sharing",
		"",
		txt(`p class="sentence"`, orElse(StateLine(stands, f.Now), "Nothing to share yet.")),
		g.If(d.Trouble != "", html(`<p class="delta">{care}$</p>`, texts{d.Trouble})),
		g.If(
			d.Closed != "",
			txt("p",
				"The link you came by has ended. What waits here is still handed in and kept for whoever runs the job to accept."),
		),
		el(`dl class="facts"`,
			Fact("Waiting here", number(d.Waiting)),
			g.If(d.Oldest > 0, Fact("Oldest of them", Ago(f.Now, d.Oldest))),
			Fact("Last shared", lastShared(f)),
			Fact("Signal", pick(d.Online, "the server answers", pick(d.Asked, "no answer just now", "not asked yet")))),
		clockOff(d),
		txt(`button type="button" data-sync`, "Share now"),
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
		return nothing
	}
	way := "ahead"
	if off < 0 {
		off, way = -off, "behind"
	}
	return html(
		`<p class="delta">{clock}$</p>`,
		texts{
			"This phone's clock is " + minutes(float64(off)) + " " + way + ". Nothing is lost by that; times shown may be off.",
		},
	)
}

func phoneKept(f Frame, d Device) g.Node {
	if !d.Here {
		return nothing
	}
	promise := "The browser may clear it when the phone runs short of room. Put Garlandry on the home screen to make that unlikely."
	if d.Persisted {
		promise = "The browser has promised to keep it."
	}
	return Panel("Kept on this phone", "", el(`dl class="facts"`,
		Fact("Jobs", number(d.Jobs)), Fact("Ticks, counts and changes", number(d.Stored)),
		g.If(d.Bytes > 0, Fact("Room taken", bytesWords(d.Bytes)))),
		txt(`p class="soft"`, promise))
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
		txt("p",
			"In the browser's menu take Install, or under Share take Add to Home Screen, and it opens like any app. "+first),
		txt(
			`p class="soft"`,
			"If a messenger opened this page in a window of its own, open it in the phone's browser instead: what such a window keeps may be thrown away.",
		),
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
		txt(`p class="soft"`, "Bright sun gives the strongest contrast, for working outdoors."),
		el(`div class="choices"`, each(len(themes), func(i int) g.Node {
			c := themes[i]
			return html(`<button type="button" data-theme-set="$">{}$</button>`, texts{c.Value, c.Label},
				g.If(c.Value == "sun", Icon("sun")))
		})),
		html(`<noscript><form method="post" action="/phone" id="look" data-server>{}
				<label for="look-theme">Look without scripts</label>
				<select id="look-theme" name="theme">{}</select>
				<button type="submit">Use it</button></form></noscript>`, nil,
			Hidden(FieldAct, "theme"),
			each(len(themes), func(i int) g.Node {
				return html(`<option value="$">$</option>`, texts{themes[i].Value, themes[i].Label})
			})))
}

func phoneFiles(f Frame, rows []JobRow) g.Node {
	if len(rows) == 0 || !f.Owns() {
		return nothing
	}
	return Panel("Save a job as a file", "", el(`ul class="list inset"`, each(len(rows), func(i int) g.Node {
		r := rows[i]
		return html(
			`<li><a class="row" href="/jobs/$/export" download=""><span class="rowtext"><span class="rowtitle">$</span></span>{share}</a></li>`,
			texts{r.ID, untitled(r.Title)},
		)
	})))
}

func phoneVersion(d Device) g.Node {
	if d.Version == "" && d.Update == "" {
		return nothing
	}
	return Panel(
		"Version",
		"",
		txt("p", orElse(d.Version, "unknown")),
		g.If(
			d.Update != "",
			html(
				`<div class="whose"><p>Version $ is ready. Your place and everything kept here stay.</p><button type="button" class="go" data-update>Update</button></div>`,
				texts{d.Update},
			),
		),
	)
}
