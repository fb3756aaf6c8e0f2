package view

import (
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/pwa/address"
)

// Action is what a button does to a job's progress. Its form posts to [address.Do].
//
//	act     entity              n                      op / text
//	tick    card/...                                             the card is done
//	untick  card/...                                             it is not
//	add     card/...            how many more (may be < 0)           text: the key of their kind, if that is known
//	undo    card/...                                   op: the addition or counting taken back
//	count   card/...            counted by eye
//	pack    pack/...            how many are packed in all
//	unpack  pack/...            how many stay packed; 0 takes all out
//	buy     pack/...            how many are bought in all
//	needed  pack/...                                             it is on the list again
//	unneeded pack/...                                            it is set aside as not needed
//	back    pack/...            how many are back in the car in all
//	take    card/...                                   text: the name; empty frees the card
//	note    card/...                                   text: the note
//	choose  choice/...                                 text: the option picked
//	restore piece/... and so on                                  it was removed; it is back
//	revert  piece/... and so on                        op: the last change of the form taken back
//	took    card/...                                   text: the minutes; empty: from ticks and counts
//	unfix                                              text: the fields that a form or a fix has set
//	unrate  override/...                               text: which adopted rates are as before, comma between
type Action struct {
	Act, Entity string
	N           *int
	Op          string
	Text        string
	TextGiven   bool   // send text even when it is empty
	Spot        string // tells apart two forms for the same action on one page
	Back        string // where to go afterwards; empty: the page it stands on
	Job         string // the job that it is of; empty: the page's
}

// Amount returns a pointer to n, for [Action].N.
func Amount(n int) *int { return &n }

// The names of an action's form fields.
const (
	FieldAct    = "act"
	FieldEntity = "e"
	FieldAmount = "n"
	FieldOp     = "op"
	FieldText   = "text"
	FieldBack   = "back"
)

// ActionForm draws a form that does an action. Inside is a button, or a field and a button. The form works as a plain
// post where the phone's core does not run.
func ActionForm(f Frame, a Action, class string, inside ...g.Node) g.Node {
	back := a.Back
	if back == "" {
		back = f.Path + f.Finder.Query() + f.clusterQuery()
	}
	return PostForm(ByCore, a.id(), address.Do.Path(orElse(a.Job, f.JobID)), h.Class(strings.TrimSpace("deed "+class)),
		g.If(a.Act == "add", g.Attr("data-each")), // each press counts, also one right after another
		Hidden(FieldAct, a.Act),
		Hidden(FieldEntity, a.Entity),
		g.Iff(a.N != nil, func() g.Node { return Hidden(FieldAmount, strconv.Itoa(*a.N)) }),
		g.If(a.Op != "", Hidden(FieldOp, a.Op)),
		g.If(a.Text != "" || a.TextGiven, Hidden(FieldText, a.Text)),
		Hidden(FieldBack, back),
		g.Group(inside))
}

// id returns the id of the action's form. It is the same each time the page is drawn, and also for the action that
// takes this one's place, so that the focus stays on its button.
func (a Action) id() string {
	key := orElse(turns[a.Act], a.Act) + "-" + a.Entity
	switch {
	case a.Act == "choose":
		key += "-" + a.Text
	case a.Act == "add" && a.N != nil:
		key += "-" + strconv.Itoa(*a.N)
	case a.Act == "count" && a.N != nil:
		key += "-all"
	}
	return domID("do", key+a.Spot)
}

// turns names what two acts switch to and fro.
var turns = map[string]string{"tick": "done", "untick": "done", "unpack": "pack", "needed": "need", "unneeded": "need"}

// Act draws an action as one button.
func Act(f Frame, a Action, style ButtonStyle, label ...g.Node) g.Node {
	return ActionForm(f, a, "", Submit(style, label...))
}
