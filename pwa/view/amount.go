package view

import (
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"
)

// Mistyped is a number that was typed into an action's form and not taken.
type Mistyped struct {
	Act, Entity, Typed string
	Why                string // empty: nothing was refused
}

// amountForm draws a form that asks how many there are: as many as are known, or the number that was refused, and why.
func amountForm(f Frame, a Action, id string, have int, label ...g.Node) g.Node {
	value, wrong := strconv.Itoa(have), ""
	if f.Mistyped.Act == a.Act && f.Mistyped.Entity == a.Entity && f.Mistyped.Why != "" {
		value, wrong = f.Mistyped.Typed, f.Mistyped.Why
	}
	return ActionForm(f, a, "inline", bad(wrong),
		h.Label(h.For(id), g.Group(label)),
		h.Input(h.ID(id), h.Type("text"), h.Name(FieldAmount), g.Attr("inputmode", "numeric"), h.AutoComplete("off"),
			h.Required(), h.Value(value), invalid(id, wrong)),
		Submit(Plain, g.Text("Set")),
		wrongLine(id, wrong))
}
