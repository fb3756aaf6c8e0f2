package view

import (
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"
)

// Deed is one act of progress that a button asks for: a form posted to /jobs/J/do.
//
//	act     entity              n                      op / text
//	tick    card/...                                             the card is done
//	untick  card/...                                             it is not
//	add     card/...            how many more (may be < 0)
//	undo    card/...                                   op: the addition or counting taken back
//	count   card/...            counted by eye
//	pack    pack/...            how many are packed in all
//	unpack  pack/...            how many stay packed; 0 takes all out
//	back    pack/...            how many are back in the car in all
//	take    card/...                                   text: the name; empty frees the card
//	note    card/...                                   text: the note
//	choose  choice/...                                 text: the option picked
//	restore piece/... and so on                                  it was removed; it is back
//	revert  piece/... and so on                        op: the last change of the form taken back
//	unfix                                              text: the fields that a fix of the clock has set
type Deed struct {
	Act, Entity string
	N           *int
	Op          string
	Text        string
	TextGiven   bool   // send text even when it is empty
	Spot        string // tells apart two forms for one deed on one page
	Back        string // where to go afterwards; empty: the page it stands on
}

// Amount gives a pointer to n, for [Deed].N.
func Amount(n int) *int { return &n }

// The names of a deed's form fields.
const (
	FieldAct    = "act"
	FieldEntity = "e"
	FieldAmount = "n"
	FieldOp     = "op"
	FieldText   = "text"
	FieldBack   = "back"
)

// DeedForm draws a form that does the deed, around the given insides: a button, or a field and a button. It works as a
// plain post; the phone's core answers it by its data-core mark.
func DeedForm(f Frame, d Deed, class string, inside ...g.Node) g.Node {
	back := d.Back
	if back == "" {
		back = f.Path
	}
	return PostForm(ByCore, d.id(), f.at("do"), h.Class(strings.TrimSpace("deed "+class)),
		Hidden(FieldAct, d.Act),
		Hidden(FieldEntity, d.Entity),
		g.Iff(d.N != nil, func() g.Node { return Hidden(FieldAmount, strconv.Itoa(*d.N)) }),
		g.If(d.Op != "", Hidden(FieldOp, d.Op)),
		g.If(d.Text != "" || d.TextGiven, Hidden(FieldText, d.Text)),
		Hidden(FieldBack, back),
		g.Group(inside))
}

// id names the deed's form on its page, the same every time it is drawn.
func (d Deed) id() string {
	key := d.Act + "-" + d.Entity
	if d.N != nil {
		key += "-" + strconv.Itoa(*d.N)
	}
	if d.Op != "" {
		key += "-" + d.Op
	}
	if d.Act == "choose" {
		key += "-" + d.Text
	}
	return domID("do", key+d.Spot)
}

// Act draws a deed as one button.
func Act(f Frame, d Deed, style ButtonStyle, label ...g.Node) g.Node {
	return DeedForm(f, d, "", Submit(style, label...))
}
