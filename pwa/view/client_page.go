package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan"
)

// ClientPage returns the whole HTML page that a client's link opens. It needs no scripts and has no controls.
func ClientPage(a Assets, j job.Job, p plan.Plan, shows ClientShows) g.Node {
	title := "Your balloons"
	if shows.Title {
		title = orElse(j.Brief.Title, title)
	}
	return clientDocument(a, title, ClientSheet(j, p, shows))
}

// ClientGone returns the whole HTML page for a link that opens nothing, whatever the reason.
func ClientGone(a Assets) g.Node {
	return clientDocument(a, LabelLinkEnded, h.Article(h.Class("client"), h.H1(g.Text("Nothing to see here")),
		h.P(g.Text("This link has ended, or part of it is missing. Ask whoever sent it for a new one."))))
}

// ClientBusy returns the whole HTML page for somebody who opened too many links that open nothing.
func ClientBusy(a Assets) g.Node {
	return clientDocument(a, "Try again soon", h.Article(h.Class("client"), h.H1(g.Text("Too many tries")),
		h.P(g.Text("Wait a minute, then open the link again."))))
}

func clientDocument(a Assets, title string, body g.Node) g.Node {
	return h.Doctype(h.HTML(h.Lang("en"),
		h.Head(h.Meta(h.Charset("utf-8")),
			h.Meta(h.Name("viewport"), h.Content("width=device-width, initial-scale=1")),
			h.TitleEl(g.Text(title)),
			h.Meta(h.Name("robots"), h.Content("noindex, nofollow")),
			h.Meta(h.Name("referrer"), h.Content("no-referrer")),
			h.Meta(h.Name("color-scheme"), h.Content("light dark")),
			h.Meta(h.Name("format-detection"), h.Content("telephone=no")),
			h.Link(h.Rel("stylesheet"), h.Href(a.CSS)),
			h.Link(h.Rel("stylesheet"), h.Href(a.Picture)),
			sheetFor("print", a.Print),
			h.Link(h.Rel("icon"), h.Href(a.Icon), h.Type("image/svg+xml"))),
		h.Body(h.Class("clientpage"), h.Main(body))))
}
