package view

import (
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"
)

// Step is a number between two buttons that lower and raise it.
type Step struct {
	ID, Name, Value string
	Label           string // of the buttons: "columns"
	Least, Most     int
	By              string // the step, "" for 1
	Wrong           string
}

// Stepper draws a number between two buttons. The buttons need scripts (hooks.js); the number does not.
func Stepper(s Step) g.Node {
	button := func(way, sign, says string) g.Node {
		return h.Button(h.Type("button"), h.Data("step", way), h.Aria("label", says+" "+s.Label),
			h.Aria("controls", s.ID), g.Text(sign))
	}
	keypad := "numeric"
	if s.By != "" {
		keypad = "decimal"
	}
	return h.Div(h.Class("stepper"),
		button("down", "−", "Fewer"),
		h.Input(h.ID(s.ID), h.Name(s.Name), h.Type("number"), g.Attr("inputmode", keypad), h.AutoComplete("off"),
			h.Min(strconv.Itoa(s.Least)), h.Max(strconv.Itoa(s.Most)), g.If(s.By != "", h.Step(s.By)), h.Value(s.Value),
			invalid(s.ID, s.Wrong)),
		button("up", "+", "More"))
}
