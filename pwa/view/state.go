package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/pwa/address"
)

// State gives the line that says how the phone stands, #state; empty on the server while it can save, quiet when all is
// shared.
func State(f Frame) g.Node {
	tone, _ := stateLine(f.Device, f.Now)
	return h.Div(h.ID("state"), h.Role("status"), h.Data("tone", tone), StateInside(f))
}

// StateInside returns the inside of #state. While all is well it is a dot on a phone; words stand there when something
// waits or needs care.
func StateInside(f Frame) g.Node {
	tone, line := stateLine(f.Device, f.Now)
	if line == "" {
		return g.Group{}
	}
	if tone == "ok" { // a dot on a phone, which nobody need hear of
		return h.Span(h.Class("stateline ok"), h.Aria("live", "off"), Icon("tick"), h.Span(g.Text(line)))
	}
	return h.A(h.Href(address.Phone.Path()), h.Class("stateline "+tone), Icon(tone), h.Span(g.Text(line)))
}

// stateWords returns the state lines of a page whose core does not run, for its script to put into #state.
func stateWords() g.Node {
	type wordsOf struct{ id, tone, line string }
	lines := []wordsOf{
		{"waits", "wait", "Saved here, waiting for signal"},
		{"stay", "care", "Not sent yet. Stay on this page"},
		{"link", "care", "Not sent. Open your link again, or a new one"},
		{"refused", "care", labelNotSaved},
		{"unkept", "care", "Not saved here. Ticks need signal"},
	}
	return g.Map(lines, func(l wordsOf) g.Node {
		return h.Template(h.ID("state-"+l.id),
			h.A(h.Href(address.Phone.Path()), h.Class("stateline "+l.tone), Icon(l.tone), h.Span(g.Text(l.line))))
	})
}

// StateLine says in one sentence how the phone stands; empty for the zero Device.
func StateLine(d Device, now int64) string {
	_, line := stateLine(d, now)
	return line
}

// longestWait is how long, in milliseconds, something may wait on a phone before it is warned of: browsers may clear
// what a page keeps, some after days.
const longestWait = 24 * 3600 * 1000

func stateLine(d Device, now int64) (tone, line string) {
	waiting := d.Waiting + d.Unposted
	what := changesOrTicks(waiting, d.Ticks) + " " + plural(waiting, "waits", "wait")
	waits := what + " on this phone"
	switch {
	case !d.Here && d.ServerFull:
		return "care", "The server’s disk is full: nothing can be saved. Make room there"
	case !d.Here:
		return "", ""
	case d.Unkept && waiting > 0:
		return "care", "Storage full. " + what + " for signal"
	case d.Unkept:
		return "care", "Storage full. Ticks need signal"
	case d.Refused:
		return "care", labelNotSaved
	case d.Lost:
		return "care", "Somebody removed this. You see it as it was"
	case len(d.Attention) > 0:
		return "care", Many(len(d.Attention), "thing") + " " + plural(len(d.Attention), "needs", "need") + " a look"
	case d.Closed != "" && waiting > 0:
		return "care", "This link has ended. " + waits
	case d.Closed != "":
		return "care", "This link has ended. Ask for a new one"
	case waiting > 0 && d.Oldest > 0 && now-d.Oldest > longestWait:
		return "care", waits + ", for more than a day. Find signal and share"
	case d.ServerFull && waiting > 0:
		return "care", waits + ": the server’s disk is full"
	case d.ServerFull:
		return "care", "The server’s disk is full. Saved on this phone"
	case waiting > 0:
		return "wait", waits
	case d.Update != "":
		return "wait", "A new version is ready"
	case d.Shared > 0 && d.Behind > 0:
		return "wait", Many(d.Behind, "job") + " " + plural(d.Behind, "is", "are") + " not up to date here"
	case d.Shared == 0 && d.Asked && !d.Online:
		return "wait", "No signal yet. Saved on this phone"
	case d.Shared == 0:
		return "", ""
	case d.Asked && !d.Online:
		return "ok", "No signal. All shared " + Ago(now, d.Shared)
	}
	return "ok", "All shared " + Ago(now, d.Shared)
}
