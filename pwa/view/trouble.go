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
	return Trouble("Page not found", "There is no such page, or its job is not shared with you.",
		"Your ticks are safe.", "Look in the list, or ask for a new link.", address.Home.Path(), "To the list")
}

// Broken is the page for a fault of ours. Reference names it in the log.
func Broken(f Frame, reference string) g.Node {
	next := "Try again in a moment. If it happens again, tell the owner."
	if reference != "" {
		next = "Try again in a moment. If it happens again, tell the owner: error " + reference + "."
	}
	return Trouble("Something went wrong", "This is our fault, not yours.",
		"What you saved is safe.", next, f.Path, "Try again")
}

// Offline is the page that stands in for one the phone does not hold.
func Offline(f Frame) g.Node {
	safe := "Jobs you opened before work, and every tick is kept."
	switch {
	case f.Device.Unkept:
		safe = "This phone’s storage is full. Stay on this page until all is shared."
	case f.Device.Here && f.Device.Jobs == 0:
		safe = "No job is on this phone."
	}
	return Trouble("No signal", "This page is not on this phone.",
		safe, "Open a job you have, or try again with signal.", address.Home.Path(), "To my jobs")
}

// Refused is the page for something the visitor may not do. Why is one sentence.
func Refused(f Frame, why string) g.Node {
	return Trouble(LabelNoAccess, why, LabelUnchanged, "Ask the owner.", address.Home.Path(), "Back")
}
