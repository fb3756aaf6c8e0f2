package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"
)

// Waiting is what the empty shell shows for the moment until the phone's own core has drawn the page.
func Waiting(f Frame) g.Node {
	return h.Section(h.Class("waiting"),
		h.H1(h.Class("vh"), g.Text("Garlandry")),
		Soft("Opening…"),
		h.P(h.ID("stuck"), h.Role("status"), g.Attr("hidden"),
			g.Text("This page cannot be shown now, and there is no signal. Your ticks are saved. "),
			PlainLink("", "", "Try again")),
		h.NoScript(h.P(g.Text("Scripts are off. Turn them on, or open the app with signal."))))
}
