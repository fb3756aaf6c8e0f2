package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"
)

// Waiting is what the empty shell shows for the moment until the phone's own core has drawn the page.
func Waiting(f Frame) g.Node {
	return h.Section(h.Class("waiting"), h.H1(h.Class("vh"), g.Text("Garlandry")), h.P(h.Class("soft"), g.Text("Opening what is on this phone.")),
		h.NoScript(h.P(g.Text("Scripts are off, so this phone cannot draw its pages. Open the app with signal, or turn scripts on."))))
}
