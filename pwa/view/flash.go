package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"
)

// Flash returns the toast of the dock, #flash: what has just happened, with its undo. It is in every document, empty
// while there is nothing to say, since screen readers announce only what changes in a region that they know.
func Flash(f Frame) g.Node {
	return h.Div(h.ID("flash"), h.Class("flash"), h.Role("status"), FlashInside(f))
}

// FlashInside returns the inside of #flash.
func FlashInside(f Frame) g.Node {
	if f.Flash == "" {
		return g.Group{}
	}
	return h.Div(Icon("tick"), h.Span(g.Text(f.Flash)),
		g.Iff(f.Undo != nil, func() g.Node {
			undo := *f.Undo
			undo.Spot += "-flash" // the page may offer the same act
			return Act(f, undo, Quiet, Icon("undo"), g.Text(labelUndo))
		}),
		Button(Plain, h.Class("dismiss"), g.Attr("data-dismiss"), g.Attr("hidden"), h.Aria("label", "Dismiss"),
			Icon("close")))
}
