package view

import (
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/forecast"
)

// verdictIcons stand beside the verdicts of a clock.
var verdictIcons = map[string]string{"sure": "tick", "done": "tick", "unsure": "wait", "late": "care", "past": "care",
	"unknown": "clock"}

// verdict draws whether all will be done: the answer in one sentence, a line to the doors with the likely end on it,
// and what has changed. More stands below; the line does not repeat a time that is said there.
func verdict(c *forecast.Forecast, said string, more ...g.Node) g.Node {
	return PanelOf("clock", "", "", h.ID("clock-answer"), h.Data("verdict", c.Verdict),
		h.P(h.Class("verdict"), Icon(verdictIcons[c.Verdict]), h.B(g.Text(atFirstLook(c)))),
		dayLine(c, said),
		g.Iff(c.Planned() && c.Verdict != "past" && (c.MustBlocked() || c.Musts >= c.Odds+worthSaying), func() g.Node {
			return h.P(g.Text("Must-haves: " + c.MustHaves()))
		}),
		g.If(c.Change != "", h.P(h.Class("soft"), h.Role("status"), g.Text(c.Change))),
		g.Group(more))
}

// atFirstLook returns the sentence of a clock. Until a first look gave way to the full plan, its figure is "about".
func atFirstLook(c *forecast.Forecast) string {
	odds, tight := strings.CutPrefix(c.Sentence, "Tight: ")
	switch {
	case !c.Rough || len(c.Blocked) > 0:
	case tight:
		return "Tight: about " + odds
	case c.Verdict == "late" && c.Sentence[0] >= '0' && c.Sentence[0] <= '9':
		return "About " + c.Sentence
	}
	return c.Sentence
}

// dayLine draws a line from now, or from access on a later day, to the doors. It is shaded from the likely end to the
// safe bet. The sentence above says the same, so screen readers skip it. It is nil where a line would say nothing.
func dayLine(c *forecast.Forecast, said string) g.Node {
	from, word := c.In, "access "+Clock(c.At(c.In))
	switch {
	case c.Now >= c.In, strings.Contains(said, Clock(c.At(c.In))):
		word = "access"
	case c.SameDay(c.Now, c.Doors):
		from, word = c.Now, "now"
	}
	if !c.Planned() || c.Verdict == "past" || c.Doors <= from || c.Ninety > c.Doors+3*(c.Doors-from) {
		return nil
	}
	width := float64(max(c.Doors, c.Ninety)-from) * 1.04
	at := func(minute int) float64 { return float64(max(minute, from)-from) * 100 / width }
	bar := func(class string, from, to float64) g.Node {
		return g.El("rect", h.Class(class), g.Attr("x", figure(from, 2)+"%"), g.Attr("y", "22"),
			h.Width(figure(max(to-from, 1), 2)+"%"), h.Height("8"), g.Attr("rx", "4"))
	}
	doors, gone := at(c.Doors), at(c.Now)
	now := "now"
	if from == c.Now || c.Now < c.In || gone < 22 {
		now = ""
	}
	return h.SVG(h.Class("dayline"), h.Width("100%"), h.Height("50"), decorative(),
		bar("span", 0, 100),
		g.If(gone > 0, bar("work", 0, gone)),
		bar("likely", at(c.Half), at(c.Ninety)),
		g.El("line", h.Class("doors"), g.Attr("x1", figure(doors, 2)+"%"), g.Attr("x2", figure(doors, 2)+"%"),
			g.Attr("y1", "16"), g.Attr("y2", "36")),
		lineWord(doors, 12, "doors"),
		lineWord(0, 47, word),
		g.If(now != "", lineWord(gone, 47, now)),
		g.If(at(c.Half) > max(gone+18, 30), lineWord((at(c.Half)+at(c.Ninety))/2, 47, "likely")))
}

// lineWord writes a word at a place of the line, inside its ends.
func lineWord(at float64, y int, word string) g.Node {
	anchor := "middle"
	switch {
	case at < 8:
		anchor = "start"
	case at > 88:
		anchor = "end"
	}
	return g.El("text", g.Attr("x", figure(at, 2)+"%"), g.Attr("y", strconv.Itoa(y)), g.Attr("text-anchor", anchor),
		g.Text(word))
}

// clockTime writes a minute of a clock as a time of day, with the day if that is not the event's.
func clockTime(c *forecast.Forecast, minute int) string {
	m := c.At(minute)
	if m == "" {
		return ""
	}
	if !c.SameDay(minute, c.Doors) {
		return DayClock(m)
	}
	return Clock(m)
}

// fixButton draws the button that makes a fix, with what it buys. Said is what stands above it.
func fixButton(c *forecast.Forecast, fix *forecast.Fix, said, to string, style ButtonStyle) g.Node {
	return ActForm(domID("fix", fix.Key), to, "fix", fix.Key, style,
		h.Span(g.Text(fix.Title()+": "), h.Span(h.Class("buys"), g.Text(buys(c, fix.Forecast, said)))))
}

// buys says what a fix changes: the odds, or the safe bet where the odds stay near nothing. It leaves out what they are
// now where that is said above.
func buys(before, after *forecast.Forecast, said string) string {
	what, was, now := "", forecast.Percent(before.Odds), forecast.Percent(after.Odds)
	switch {
	case len(after.Blocked) < len(before.Blocked):
		return Many(len(before.Blocked)-len(after.Blocked), "more card") + " can be done"
	case was == now:
		what, was, now = "safe bet ", clockTime(before, before.Ninety), clockTime(after, after.Ninety)
	}
	switch {
	case !strings.Contains(said, was):
		return what + was + " to " + now
	case what != "":
		return what + now
	}
	return "to " + now
}
