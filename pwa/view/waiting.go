package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"
)

// Waiting is what the empty shell shows for the moment until the phone's own core has drawn the page.
func Waiting(f Frame) g.Node {
	return h.Section(h.Class("waiting"),
		h.H1(h.Class("vh"), g.Text("Garlandry")),
		Soft("Opening what is on this phone."),
		h.P(h.ID("stuck"), h.Role("status"), g.Attr("hidden"),
			g.Text("This phone cannot draw its pages just now, and there is no signal to fetch them. What you ticked is kept. "),
			PlainLink("", "", "Try again")),
		h.NoScript(h.P(g.Text("Scripts are off, so this phone cannot draw its pages. Open the app with signal, or turn scripts on."))))
}
