package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"
)

// formWords returns what a page's script shows in a form: that it is not saved yet, and that a draft of it is back.
func formWords() g.Node {
	return g.Group{
		h.Template(h.ID("words-unsaved"), h.Span(h.Class("unsaved"), Icon("edit"), g.Text("Not saved yet"))),
		h.Template(h.ID("words-draft"), h.P(h.Class("draft"),
			h.Span(g.Text("Your draft from "), g.El("time"), g.Text(" is back.")),
			Button(Quiet, g.Attr("data-discard"), g.Text("Discard")))),
	}
}

// passWords returns what a page's script says in the toast: what came of copying a link, of sharing, of a picture and
// of a photo.
func passWords() g.Node {
	type wordsOf struct{ id, icon, text string }
	words := []wordsOf{
		{"copied", "tick", "Copied."},
		{"by-hand", "care", "Copy it by hand."},
		{"sharing", "wait", "Sharing…"},
		{"shared", "tick", ""}, // then how this phone stands
		{"unshared", "care", ""},
		{"picture", "tick", "Picture saved."},
		{"photo-work", "wait", "Preparing the photo…"},
		{"photo-full", "care", "This phone has no room for the photo. Nothing was added."},
		{"no-photo", "care", LabelNoPhoto},
		{"no-picture", "care", "This browser made no picture. Print it instead."},
	}
	return g.Map(words, func(w wordsOf) g.Node { return h.Template(h.ID("words-"+w.id), toast(w.icon, w.text)) })
}
