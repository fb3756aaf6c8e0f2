package view

import (
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
)

// Document gives the whole HTML page around a page's body.
func Document(f Frame, body g.Node) g.Node {
	a := f.assets()
	recalls := a.Shell && a.Recall != ""
	title := "Garlandry"
	if f.Title != "" {
		title = f.Title + " · Garlandry"
	}
	return h.Doctype(html(
		`<html lang="en"{}{}{}>
		<head>
			<meta charset="utf-8">
			<meta name="viewport" content="width=device-width, initial-scale=1, viewport-fit=cover">
			<title>$</title>
			<meta name="description" content="Counts, packing and cards for balloon décor, with or without signal.">
			<meta name="theme-color" content="$" data-own="$" media="(prefers-color-scheme: light)">
			<meta name="theme-color" content="$" data-own="$" media="(prefers-color-scheme: dark)">
			<meta name="color-scheme" content="light dark">
			<meta name="format-detection" content="telephone=no">
			<link rel="stylesheet" href="$">
			<link rel="manifest" href="$">
			<link rel="icon" href="$" type="image/svg+xml">
			<link rel="apple-touch-icon" href="$">
			{}{}</head>
		<body>
			<a class="skip" href="#page">To the page</a>
			{}{}
			<div class="dock">{}{}{}{}</div>{}</body></html>`,
		texts{title, surfaceOf(f.Theme, lightSurface), lightSurface, surfaceOf(f.Theme, darkSurface), darkSurface, a.CSS,
			a.Manifest, a.Icon, a.Touch},
		g.If(knownTheme(f.Theme), attr("data-theme", f.Theme)),
		coreMarks(a),
		g.Group{g.If(f.Role != "", attr("data-role", string(f.Role))), g.If(a.Left, attr("data-left", "yes"))},
		g.Group{g.If(a.Look != "", html(`<script src="$"></script>`, texts{a.Look})),
			g.If(recalls, html(`<script src="$"></script>`, texts{a.Recall}))},
		g.If(a.Script != "" && !recalls, html(`<script type="module" src="$"></script>`, texts{a.Script})),
		Top(f),
		Page(f, body),
		updateBar(),
		State(f),
		stateWords(),
		Nav(f),
		g.If(recalls, html(`<recall-page hidden data-script="$"></recall-page>`, texts{a.Script})),
	))
}

// coreMarks tells the page's script where the on-device core is.
func coreMarks(a Assets) g.Node {
	if a.Build == "" {
		return nothing
	}
	return g.Group{attr("data-build", a.Build), attr("data-core", a.Core), attr("data-loader", a.Loader),
		g.If(a.Shell, attr("data-shell", "yes"))}
}

// updateBar offers a newer version; the phone's script shows it when one waits.
func updateBar() g.Node {
	return fixed(`<div id="update" class="update" hidden role="status"><span>A new version is ready.</span>
		<button type="button" data-update>Update now</button></div>`)
}

// lightSurface and darkSurface colour the browser's own bars as the page behind them.
const (
	lightSurface = "#faf6f0"
	darkSurface  = "#171513"
	sunSurface   = "#ffffff"
)

// surfaceOf is the colour of the browser's own bars in a chosen look, or what it is without one.
func surfaceOf(theme, own string) string {
	switch theme {
	case "light":
		return lightSurface
	case "dark":
		return darkSurface
	case "sun":
		return sunSurface
	}
	return own
}

// Themes are the ways a page can look, in the order they are offered; "" follows the system.
func Themes() []job.Choice {
	return []job.Choice{{Value: "", Label: "As the phone"}, {Value: "light", Label: "Light"},
		{Value: "dark", Label: "Dark"}, {Value: "sun", Label: "Bright sun"}}
}

func knownTheme(name string) bool {
	for _, t := range Themes() {
		if t.Value == name && name != "" {
			return true
		}
	}
	return false
}

// Page gives main, #page: what has just happened, then the body.
func Page(f Frame, body g.Node) g.Node {
	return el(`main id="page" tabindex="-1"`, PageInside(f, body))
}

// PageInside gives the inside of #page.
func PageInside(f Frame, body g.Node) g.Node {
	return these(
		g.Iff(f.Alert != "", func() g.Node {
			return html(`<p id="alert" class="alert" role="alert">{care}<span>$</span></p>`, texts{f.Alert})
		}),
		g.Iff(f.Flash != "", func() g.Node {
			return html(`<div id="flash" class="flash" role="status">{tick}<span>$</span>
				{}</div>`, texts{f.Flash},
				g.Iff(f.Undo != nil, func() g.Node { return Act(f, *f.Undo, "quiet", fixed("{undo}Undo")) }))
		}),
		body,
	)
}

// Top gives the header, #top: the way back, whose job it is, the phone's state.
func Top(f Frame) g.Node { return el(`header id="top"`, TopInside(f)) }

// TopInside gives the inside of #top.
func TopInside(f Frame) g.Node {
	href, label := wayBack(f)
	return these(
		g.If(label != "", html(`<a class="wayback" href="$">{back}<span>$</span></a>`, texts{href, label})),
		g.If(label == "", html(`<span class="mark">{}Garlandry</span>`, nil, mark())),
		g.If(f.Role != "", html(`<a class="tool" href="/phone" aria-label="This phone" title="This phone">{phone}
			{}</a>`, nil,
			g.If(len(f.Device.Attention) > 0 || f.Device.Update != "", el(`span class="dot"`)))),
	)
}

// wayBack names the page above this one: the job above its pages, the list above a job. A helper has one job, so there
// is nothing above its first page.
func wayBack(f Frame) (href, label string) {
	first := f.at("")
	if f.Role == job.Helper {
		first = f.at("next")
	}
	switch {
	case f.JobID == "" && (f.Path == "/" || f.Path == "" || f.Role == ""):
		return "", ""
	case f.JobID == "" && strings.HasPrefix(f.Path, "/calc/"):
		return "/calc", "Calculators"
	case f.JobID == "":
		return "/", "Jobs"
	case f.Path != first && f.Path != f.at("") && f.Path != f.at("next"):
		rest := strings.TrimPrefix(f.Path, f.at("")+"/")
		if parent, _, deep := strings.Cut(rest, "/"); deep && (parent == "cards" || parent == "pieces") {
			return f.at(parent), strings.ToUpper(parent[:1]) + parent[1:]
		}
		if card, changing := strings.CutPrefix(rest, "change/card/"); changing {
			return f.at("cards/" + card), "Card"
		}
		return first, f.JobTitle
	case f.Role == job.Owner:
		return "/", "Jobs"
	}
	return "", ""
}

// mark is our sign: three balloons on a line.
func mark() g.Node {
	return html(`<svg class="sign" viewBox="0 0 32 24" aria-hidden="true" focusable="false">
		<path d="M2 20C8 6 24 6 30 20" class="line"></path>
		{}{}{}</svg>`, nil,
		circle(6, 15, 5, "#e5604d"), circle(16, 9.5, 6, "#24416b"), circle(26, 15, 5, "#dcbd8c"))
}

// Nav gives the bar, #nav. It is empty for a stranger.
func Nav(f Frame) g.Node { return el(`nav id="nav" aria-label="Pages"`, NavInside(f)) }

// NavInside gives the inside of #nav.
func NavInside(f Frame) g.Node {
	items := f.Nav
	if items == nil {
		items = NavFor(f)
	}
	return each(len(items), func(n int) g.Node {
		i := items[n]
		return html(`<a href="$"{}>{}<span>$</span></a>`, texts{i.Href, i.Label}, g.If(i.Current, h.Aria("current", "page")),
			Icon(i.Icon))
	})
}

// NavFor gives the entries for the visitor: a helper's day, the pages of a job, or the pages outside one.
func NavFor(f Frame) []NavItem {
	var items []NavItem
	add := func(href, label, icon string) {
		items = append(items, NavItem{Href: href, Label: label, Icon: icon})
	}
	places := func(names string) {
		for _, name := range strings.Fields(names) {
			add(f.at(name), strings.ToUpper(name[:1])+name[1:], name)
		}
	}
	switch {
	case f.Role == "":
		return nil
	case f.JobID == "":
		add("/", "Jobs", "jobs")
		add("/calc", "Calculators", "calc")
		add("/phone", "This phone", "phone")
	case f.Role == job.Helper:
		places("next cards pack counts clock")
	default:
		add(f.at(""), "Job", "job")
		places("pieces counts pack cards clock")
	}
	best := -1
	for i, item := range items {
		under := item.Href != "/" && item.Href != f.at("") && strings.HasPrefix(f.Path, item.Href+"/")
		if item.Href == f.Path || under {
			best = i
		}
	}
	if best >= 0 {
		items[best].Current = true
	}
	return items
}
