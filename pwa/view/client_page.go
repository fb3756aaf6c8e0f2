package view

import (
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/phrase"
)

// ClientShows is what a client's page shows besides pictures, date and colours.
type ClientShows struct {
	Title    bool // the job's name
	Measures bool // how wide and high each piece looks
	Crew     bool // first names
}

// ClientPage returns the whole HTML page that a client's link opens. It needs no scripts and has no controls.
func ClientPage(a Assets, j job.Job, p plan.Plan, shows ClientShows) g.Node {
	title := "Your balloons"
	if shows.Title {
		title = orElse(j.Brief.Title, title)
	}
	made := ""
	if shows.Crew {
		made = madeBy(j.Crew)
	}
	return clientDocument(a, title, clientSheet(j, p, title, made, shows.Measures))
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

// madeBy names the crew by their first names; "" for nobody.
func madeBy(crew []job.Member) string {
	var names []string
	for _, m := range crew {
		if words := strings.Fields(m.Name); len(words) > 0 && m.Name != job.UnnamedOwner {
			names = append(names, words[0])
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "Made by " + phrase.And(names)
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
