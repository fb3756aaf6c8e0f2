package view

import (
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/pwa/address"
)

// Document returns the whole HTML page around a page's body.
func Document(f Frame, body g.Node) g.Node {
	a := f.assets()
	recalls := a.Shell && a.Recall != ""
	title := "Garlandry"
	if f.Title != "" {
		title = f.Title + " · Garlandry"
	}
	return h.Doctype(h.HTML(h.Lang("en"), g.If(knownTheme(f.Theme), h.Data("theme", f.Theme)), coreMarks(a),
		g.If(f.Role != "", h.Data("role", string(f.Role))), g.If(a.Left, h.Data("left", "yes")),
		g.If(f.Flash != "", h.Data("toast", "")),
		h.Head(h.Meta(h.Charset("utf-8")),
			h.Meta(h.Name("viewport"), h.Content("width=device-width, initial-scale=1, viewport-fit=cover")),
			h.TitleEl(g.Text(title)),
			h.Meta(h.Name("description"),
				h.Content("Counts, packing and cards for balloon décor, with or without signal.")),
			h.Meta(h.Name("theme-color"), h.Content(surfaceOf(f.Theme, lightSurface)), h.Data("own", lightSurface),
				g.Attr("media", "(prefers-color-scheme: light)")),
			h.Meta(h.Name("theme-color"), h.Content(surfaceOf(f.Theme, darkSurface)), h.Data("own", darkSurface),
				g.Attr("media", "(prefers-color-scheme: dark)")),
			h.Meta(h.Name("color-scheme"), h.Content("light dark")),
			h.Meta(h.Name("format-detection"), h.Content("telephone=no")),
			h.Link(h.Rel("stylesheet"), h.Href(a.CSS)),
			h.Link(h.Rel("stylesheet"), h.Href(a.Picture)),
			sheetFor("(max-width: 59.99em)", a.Narrow),
			sheetFor("(min-width: 60em)", a.Wide),
			sheetFor("print", a.Print),
			h.Link(h.Rel("manifest"), h.Href(a.Manifest), h.CrossOrigin("use-credentials")), // with the cookie
			h.Link(h.Rel("icon"), h.Href(a.Icon), h.Type("image/svg+xml")),
			h.Link(h.Rel("apple-touch-icon"), h.Href(a.Touch)),
			g.If(a.Look != "", h.Script(h.Src(a.Look))),
			g.If(recalls, h.Script(h.Src(a.Recall))),
			g.If(a.Script != "" && !recalls, h.Script(h.Type("module"), h.Src(a.Script)))),
		h.Body(h.A(h.Class("skip"), h.Href("#page"), g.Text("Skip to content")),
			Top(f),
			Page(f, body),
			h.Div(h.Class("dock"), Flash(f), updateBar(), State(f), stateWords(), formWords(), passWords(), Nav(f)),
			h.P(h.ID("say"), h.Class("vh"), h.Role("status")), h.P(h.ID("alarm"), h.Class("vh"), h.Role("alert")),
			g.If(recalls, g.El("recall-page", g.Attr("hidden"), h.Data("script", a.Script))))))
}

// sheetFor loads a style sheet that holds for some media.
func sheetFor(media, href string) g.Node {
	return g.If(href != "", h.Link(h.Rel("stylesheet"), h.Href(href), g.Attr("media", media)))
}

// coreMarks tells the page's script where the on-device core is.
func coreMarks(a Assets) g.Node {
	if a.Build == "" {
		return nil
	}
	return g.Group{h.Data("build", a.Build), h.Data("core", a.Core), h.Data("loader", a.Loader),
		g.If(a.Shell, h.Data("shell", "yes"))}
}

// updateBar offers a newer version; the phone's script shows it when one waits.
func updateBar() g.Node {
	return h.Div(h.ID("update"), h.Class("update"), g.Attr("hidden"), h.Role("status"),
		h.Span(g.Text("A new version is ready.")),
		Button(Plain, g.Attr("data-update"), g.Text("Update now")))
}

// The colours of the browser's own bars, which are those of the page behind them.
const (
	lightSurface = "#faf6f0"
	darkSurface  = "#171513"
	sunSurface   = "#ffffff"
)

// surfaceOf returns the colour of the browser's own bars in a chosen look, or own if none is chosen.
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

// Page returns main, #page: what went wrong, then the body.
func Page(f Frame, body g.Node) g.Node {
	return h.Main(h.ID("page"), h.TabIndex("-1"), PageInside(f, body))
}

// PageInside returns the inside of #page.
func PageInside(f Frame, body g.Node) g.Node {
	return g.Group{
		g.Iff(f.Alert != "", func() g.Node {
			return h.P(h.ID("alert"), h.Class("alert"), h.Role("alert"), Icon("care"), h.Span(g.Text(f.Alert)))
		}),
		body,
	}
}

// Top returns the header, #top: the way back, whose job it is, the phone's state.
func Top(f Frame) g.Node { return h.Header(h.ID("top"), TopInside(f)) }

// TopInside returns the inside of #top.
func TopInside(f Frame) g.Node {
	href, label := wayBack(f)
	return g.Group{
		g.If(label != "", h.A(h.Class("wayback"), h.Href(href), Icon("back"), h.Span(g.Text(label)))),
		g.If(label == "", h.Span(h.Class("mark"), mark(), g.Text("Garlandry"))),
		g.If(f.Role != "",
			h.A(h.Class("tool"), h.Href(address.Phone.Path()), h.Aria("label", "This phone"), h.Title("This phone"),
				Icon("phone"),
				g.If(len(f.Device.Attention) > 0 || f.Device.Update != "", h.Span(h.Class("dot"))))),
	}
}

// wayBack names the page above this one: the job above its pages, the list above a job. A helper has one job, so there
// is nothing above its first page.
func wayBack(f Frame) (href, label string) {
	here, _ := address.Parse(f.Path)
	first := address.Job
	if f.Role == job.Helper {
		first = address.Next
	}
	switch {
	case f.JobID == "" && (here.Page == address.Home || f.Path == "" || f.Role == ""):
		return "", ""
	case f.JobID == "" && here.Page == address.Calculator:
		return address.Calculators.Path(), "Calculators"
	case f.JobID == "":
		return address.Home.Path(), "Jobs"
	case here.Page == address.Card:
		return f.at(address.Cards), "Cards"
	case here.Page == address.Piece || here.Page == address.NewPiece:
		return f.at(address.Pieces), "Pieces"
	case here.Page == address.Layers:
		return f.at(address.Piece, here.Item), "Piece"
	case here.Page == address.Boxes:
		return f.at(address.Room), "Room"
	case here.Page == address.ChangeCard && job.IsCard(here.Item):
		return f.at(address.Card, job.KeyPath(here.Item)), "Card"
	case here.Page != address.Job && here.Page != address.Next:
		return f.at(first), f.JobTitle
	case f.Role == job.Owner:
		return address.Home.Path(), "Jobs"
	}
	return "", ""
}

// mark is our sign: three balloons on a line.
func mark() g.Node {
	return h.SVG(h.Class("sign"), g.Attr("viewBox", "0 0 32 24"), h.Aria("hidden", "true"),
		g.Attr("focusable", "false"),
		g.El("path", g.Attr("d", "M2 20C8 6 24 6 30 20"), h.Class("line")),
		circle(6, 15, 5, "#e5604d"),
		circle(16, 9.5, 6, "#24416b"),
		circle(26, 15, 5, "#dcbd8c"))
}

// Nav returns the bar, #nav. It is empty for a stranger.
func Nav(f Frame) g.Node { return h.Nav(h.ID("nav"), h.Aria("label", "Pages"), NavInside(f)) }

// NavInside returns the inside of #nav.
func NavInside(f Frame) g.Node {
	items := f.Nav
	if items == nil {
		items = NavFor(f)
	}
	return g.Map(items, func(i NavItem) g.Node {
		return h.A(h.Href(i.Href), g.If(i.Current, h.Aria("current", "page")), Icon(i.Icon),
			h.Span(g.Text(i.Label)))
	})
}

// NavFor returns the entries for the visitor: a helper's day, the pages of a job, or the pages outside one.
func NavFor(f Frame) []NavItem {
	var items []NavItem
	add := func(href, label, icon string) {
		items = append(items, NavItem{Href: href, Label: label, Icon: icon})
	}
	inJob := func(page address.Page, label, icon string) { add(f.at(page), label, icon) }
	switch {
	case f.Role == "":
		return nil
	case f.JobID == "":
		add(address.Home.Path(), "Jobs", "jobs")
		add(address.Calculators.Path(), "Calculators", "calc")
		add(address.Phone.Path(), "This phone", "phone")
	case f.Role == job.Helper:
		inJob(address.Next, "Next", "next")
		inJob(address.Cards, "Cards", "cards")
		inJob(address.Pack, "Pack", "pack")
		inJob(address.Counts, "Counts", "counts")
		inJob(address.Clock, "Clock", "clock")
	default:
		inJob(address.Job, "Job", "job")
		inJob(address.Pieces, "Pieces", "pieces")
		inJob(address.Counts, "Counts", "counts")
		inJob(address.Pack, "Pack", "pack")
		inJob(address.Cards, "Cards", "cards")
		inJob(address.Clock, "Clock", "clock")
	}
	best := -1
	for i, item := range items {
		own := item.Href == address.Home.Path() || item.Href == f.at(address.Job) // stands for one page alone
		under := !own && strings.HasPrefix(f.Path, item.Href+"/")
		if item.Href == f.Path || under {
			best = i
		}
	}
	if best >= 0 {
		items[best].Current = true
	}
	return items
}
