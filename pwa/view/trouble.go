package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/pwa/address"
)

// Trouble draws a page that says what happened, what is safe and what to do next. Href and label are the way on.
func Trouble(title, happened, safe, next, href, label string) g.Node {
	return h.Section(h.Class("trouble"),
		emptyString(),
		h.H1(g.Text(title)),
		h.P(g.Text(happened)),
		g.If(safe != "", h.P(g.Text(safe))),
		g.If(next != "", h.P(g.Text(next))),
		g.If(href != "", ButtonLink(href, "go", g.Text(label))))
}

// NotFound is the page for an address that leads nowhere.
func NotFound(f Frame) g.Node {
	return Trouble("Nothing here", "This address leads to nothing, or to a job that was not shared with you.",
		"Everything you ticked is safe.", "Look for it in the list, or ask whoever sent you the link.", address.Home.Path(), "To the list")
}

// Broken is the page for a fault of ours. Reference names it in the log.
func Broken(f Frame, reference string) g.Node {
	next := "Try again in a moment. If it stays, tell whoever runs this."
	if reference != "" {
		next = "Try again in a moment. If it stays, tell whoever runs this, with the number " + reference + "."
	}
	return Trouble("That went wrong", "The page could not be drawn. The fault is ours, not yours.",
		"What was saved before is safe.", next, f.Path, "Try again")
}

// Offline is the page that stands in for one the phone does not hold.
func Offline(f Frame) g.Node {
	safe := "The jobs you opened before are here, and every tick is kept."
	switch {
	case f.Device.Unkept:
		safe = "This phone’s storage takes nothing more. Stay on this page until all is shared."
	case f.Device.Here && f.Device.Jobs == 0:
		safe = "No job is on this phone."
	}
	return Trouble("No signal", "This page is not on this phone and cannot be fetched now.",
		safe, "Go back to a job you have, or try again when there is signal.", address.Home.Path(), "To my jobs")
}

// Refused is the page for something the visitor may not do. Why is one sentence.
func Refused(f Frame, why string) g.Node {
	return Trouble("Not yours to open", why, "Nothing was changed.", "Ask whoever runs the job.", address.Home.Path(), "Back")
}
