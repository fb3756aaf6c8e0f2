package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"
)

// Tone says what a notice is about.
type Tone string

// The tones of a notice.
const (
	Changed Tone = "delta"   // something differs, or went wrong
	Waits   Tone = "waits"   // something has to come first
	AllDone Tone = "alldone" // all is well
	Alarm   Tone = "alert"   // something is about to be lost
)

// Notice draws a line with an icon and one sentence. More stands after the sentence.
func Notice(tone Tone, icon, text string, more ...g.Node) g.Node {
	return h.P(h.Class(string(tone)), Icon(icon), g.Text(text), g.Group(more))
}

// NoticeInRow is a [Notice] inside the text of a row.
func NoticeInRow(tone Tone, icon, text string) g.Node {
	return h.Span(h.Class(string(tone)), Icon(icon), g.Text(text))
}

// Lead draws the sentence below a page's heading.
func Lead(text string) g.Node { return h.P(h.Class("lead"), g.Text(text)) }

// Soft draws a paragraph that stands back.
func Soft(text string) g.Node { return h.P(h.Class("soft"), g.Text(text)) }

// Small draws text inside a line that stands back.
func Small(text string) g.Node { return h.Span(h.Class("soft"), g.Text(text)) }

// ForReaders draws text that only screen readers say.
func ForReaders(text string) g.Node { return h.Span(h.Class("vh"), g.Text(text)) }
