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
	return toast("tick", f.Flash, g.Iff(f.Undo != nil, func() g.Node {
		undo := *f.Undo
		undo.Spot += "-flash" // the page may offer the same act
		return Act(f, undo, Quiet, Icon("undo"), g.Text(labelUndo))
	}))
}

// toast draws what is said, with what can be done about it and the cross that takes it away.
func toast(icon, text string, more ...g.Node) g.Node {
	return h.Div(Icon(icon), h.Span(g.Text(text)), g.Group(more),
		Button(Plain, h.Class("dismiss"), g.Attr("data-dismiss"), g.Attr("hidden"), h.Aria("label", "Dismiss"),
			Icon("close")))
}
