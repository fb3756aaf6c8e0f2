package page

import (
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/packing"
	"garlandry/app/plan/task"
	"garlandry/calc/measure"
	"garlandry/pwa/view"
)

// deed is one act of progress, read from its form.
type deed struct {
	entity string
	n      int
	given  bool // n was typed
	op     string
	text   string
}

// done is what a deed comes to.
type done struct {
	change job.Change
	more   []job.Change // after it
	flash  string
	undo   *view.Deed
	wrong  string // why it cannot be; empty if it can
	same   bool   // it is so already
	other  bool   // somebody else wrote there meanwhile
}

// act is one act of progress.
type act struct {
	name string
	do   func(*ask, deed) done
}

// acts are the acts of progress. See [view.Deed].
var acts = []act{
	{"tick", (*ask).tick}, {"untick", (*ask).untick}, {"add", (*ask).add}, {"undo", (*ask).undo}, {"count", (*ask).count},
	{
		"pack",
		(*ask).packed,
	}, {"unpack", (*ask).unpacked}, {"back", (*ask).returned}, {"take", (*ask).take}, {"note", (*ask).note}, {"choose", (*ask).choose},
	{"restore", (*ask).restore}, {"revert", (*ask).revert}, {"unfix", (*ask).unfix},
}

func actNamed(name string) func(*ask, deed) done {
	for _, x := range acts {
		if x.name == name {
			return x.do
		}
	}
	return nil
}

func do(a *ask) *Reply {
	act := actNamed(a.in.Get(view.FieldAct))
	if act == nil {
		return a.again("There is no such act.")
	}
	d := deed{entity: a.in.Get(view.FieldEntity), op: a.in.Get(view.FieldOp),
		text: strings.TrimSpace(a.in.Get(view.FieldText))}
	if typed := strings.TrimSpace(a.in.Get(view.FieldAmount)); typed != "" {
		n, err := measure.ParseNumber(typed)
		if err != nil || n != float64(int(n)) || n < -100000 || n > 1000000 {
			return a.again("How many must be a whole number from 0 to 1000000; you typed " + clip(typed) + ".")
		}
		d.n, d.given = int(n), true
	}
	if !a.Scripts && !a.knows(d.entity) { // a phone's page may be older than the design it has just got
		return a.again(notOnList)
	}
	result := act(a, d)
	if result.wrong != "" {
		return a.again(result.wrong)
	}
	if result.same {
		return a.goes(a.back(), "Nothing was changed.")
	}
	kind := result.change.Kind
	if kind == "" {
		kind = job.Set
	}
	if !a.Visitor.Role.MayField(kind, result.change.Entity, result.change.Field) {
		return a.refused("Your link lets you tick, count and pack, but not this.")
	}
	if result.other {
		return a.noteAgain(d,
			"The note was changed meanwhile, so yours was not kept yet. Here are both: write what is to stand")
	}
	if err := job.CheckChange(result.change); err != nil {
		if result.change.Field == "note" {
			return a.noteAgain(d, raised(plainly(err))+". It was not kept yet; all you typed is still in the note below")
		}
		return a.again("That could not be taken: " + plainly(err) + ".")
	}
	reply := a.wrote(append([]job.Change{result.change}, result.more...), a.back(), result.flash)
	reply.Undo = result.undo
	return reply
}

const notOnList = "This line is not on a list of this job, or not any more. Nothing was changed."

// knows reports whether a card or a line is in the plan, or was once: somebody did something to it. What else there is,
// is looked at by each act.
func (a *ask) knows(entity string) bool {
	if !job.ValidKey(entity) || a.job.State.Registers[entity] != nil || a.job.State.Tallies[entity] != nil {
		return true
	}
	p := a.plan()
	_, card := view.FindCard(p, entity)
	_, line := packLine(p, entity)
	return card || line
}

func (a *ask) tick(d deed) done {
	if !job.ValidKey(d.entity) {
		return done{wrong: notOnList}
	}
	var more []job.Change
	p := a.plan()
	if stands := task.Stands(p.Pack, d.entity); stands != "" {
		more = append(more, job.Put(d.entity, "stands", stands))
	}
	if c, known := view.FindCard(p, d.entity); known && c.Count > 0 { // for how many it stands
		more = append(more, job.Put(d.entity, "have", max(0, c.Count-a.job.Made(d.entity))))
	}
	return done{change: job.Put(d.entity, "done", true), more: more, flash: "Done: " + a.called(d.entity) + ".",
		undo: &view.Deed{Act: "untick", Entity: d.entity}}
}

func (a *ask) untick(d deed) done {
	if !job.ValidKey(d.entity) {
		return done{wrong: notOnList}
	}
	return done{change: job.Put(d.entity, "done", false), flash: "Open again: " + a.called(d.entity) + ".",
		undo: &view.Deed{Act: "tick", Entity: d.entity}}
}

func (a *ask) add(d deed) done {
	switch {
	case !job.ValidKey(d.entity):
		return done{wrong: notOnList}
	case !d.given || d.n == 0:
		return done{wrong: "Say how many more, from 1 to 100000."}
	}
	return done{change: job.Count(d.entity, int64(d.n)), flash: ""}
}

func (a *ask) undo(d deed) done {
	if !job.ValidKey(d.entity) {
		return done{wrong: notOnList}
	}
	there := false
	if t := a.job.State.Tally(d.entity); t != nil {
		for _, e := range t.Entries {
			there = there || e.ID == d.op
		}
		for _, c := range t.Counts {
			there = there || c.ID == d.op
		}
	}
	if !there {
		return done{wrong: "There is no such count to take back here. Nothing was changed."}
	}
	return done{change: job.TakeBack(d.entity, d.op), flash: "Taken back."}
}

func (a *ask) count(d deed) done {
	switch {
	case !job.ValidKey(d.entity):
		return done{wrong: notOnList}
	case !d.given || d.n < 0:
		return done{wrong: "How many are there? A whole number from 0 to 1000000."}
	}
	changes := job.CountedAs(a.job.State, d.entity, int64(d.n))
	if raw := a.job.State.Register(d.entity, "have").Value(); job.IsCard(d.entity) &&
		raw != nil { // a tick counts for none beside it
		changes = append(changes, job.Put(d.entity, "have", 0))
	}
	if len(changes) == 0 {
		return done{wrong: "So many are counted already. Nothing was changed."}
	}
	return done{change: changes[0], more: changes[1:], flash: "Counted: " + measure.FormatNumber(float64(d.n), 0) + "."}
}

func (a *ask) packed(d deed) done {
	if !job.ValidKey(d.entity) {
		return done{wrong: notOnList}
	}
	if !d.given {
		d.n = 1
		if line, known := packLine(a.plan(), d.entity); known {
			d.n = line.Need
		}
	}
	if d.n < 0 {
		return done{wrong: "Packed must be a whole number from 0 to 1000000."}
	}
	return done{change: job.Put(d.entity, "have", d.n), flash: "Packed: " + a.called(d.entity) + ".",
		undo: &view.Deed{Act: "unpack", Entity: d.entity, N: view.Amount(a.job.Packed(d.entity))}}
}

func (a *ask) unpacked(d deed) done {
	if !job.ValidKey(d.entity) {
		return done{wrong: notOnList}
	}
	if d.n < 0 {
		return done{wrong: "Packed must be a whole number from 0 to 1000000."}
	}
	return done{change: job.Put(d.entity, "have", d.n), flash: "Unpacked: " + a.called(d.entity) + ".",
		undo: &view.Deed{Act: "pack", Entity: d.entity, N: view.Amount(a.job.Packed(d.entity))}}
}

// returned notes how many of a line are back in the car, beside how many were packed.
func (a *ask) returned(d deed) done {
	if !job.ValidKey(d.entity) || !job.IsPack(d.entity) {
		return done{wrong: notOnList}
	}
	if d.n < 0 || !d.given {
		return done{wrong: "How many are back in the car? A whole number from 0 to 1000000."}
	}
	flash := "Back in the car: "
	if d.n == 0 {
		flash = "Not in the car: "
	}
	return done{change: job.Put(d.entity, "back", d.n), flash: flash + a.called(d.entity) + ".",
		undo: &view.Deed{Act: "back", Entity: d.entity, N: view.Amount(a.job.Back(d.entity))}}
}

func (a *ask) take(d deed) done {
	if !job.ValidKey(d.entity) {
		return done{wrong: notOnList}
	}
	flash := a.called(d.entity) + " is " + d.text + "’s."
	if d.text == "" {
		flash = a.called(d.entity) + " is free again."
	}
	return done{change: job.Put(d.entity, "taken", d.text), flash: flash,
		undo: &view.Deed{Act: "take", Entity: d.entity, Text: a.job.TakenBy(d.entity), TextGiven: true}}
}

func (a *ask) note(d deed) done {
	if !job.ValidKey(d.entity) {
		return done{wrong: notOnList}
	}
	now, text := view.NoteOn(a.job, d.entity), oneEnd(d.text)
	was, drawn := a.in[view.FieldWas]
	result := done{change: job.Put(d.entity, "note", text), flash: "Noted."}
	if drawn {
		result.same = text == now || text == oneEnd(was[0])
		result.other = !result.same && oneEnd(was[0]) != oneEnd(now)
	}
	return result
}

// oneEnd writes line ends in one way, which browsers do not, and no space around the text.
func oneEnd(text string) string { return strings.TrimSpace(strings.ReplaceAll(text, "\r\n", "\n")) }

// choose decides a note of the plan; an empty pick gives the decision back to the plan.
func (a *ask) choose(d deed) done {
	key, isChoice := strings.CutPrefix(d.entity, "choice/")
	if !isChoice {
		return done{wrong: "There is nothing to decide there."}
	}
	for _, n := range a.plan().Notes {
		if n.Key != key {
			continue
		}
		allowed := d.text == ""
		for _, o := range n.Options {
			allowed = allowed || o.Value == d.text
		}
		if !allowed {
			return done{wrong: "That is not one of the ways to decide this."}
		}
		return done{change: job.Put(d.entity, "pick", d.text), flash: "Decided.",
			undo: &view.Deed{Act: "choose", Entity: d.entity, Text: a.job.Choices[key], TextGiven: true}}
	}
	return done{wrong: "There is nothing to decide there any more."}
}

// restore takes back a removal.
func (a *ask) restore(d deed) done {
	noun, known := job.FindNoun(d.entity)
	if !known || noun.Single || noun.Private || !a.job.State.Removed(d.entity) {
		return done{wrong: "There is nothing to bring back."}
	}
	return done{change: job.Put(d.entity, "removed", false), flash: "Back again."}
}

// revert sets the fields of the design back to what they were before somebody's form, as far as nobody changed them
// since.
func (a *ask) revert(d deed) done {
	for _, x := range view.Happenings(a.job, a.plan(), a.Visitor.Role, "") {
		if x.Entity == d.entity && x.Stamp.ID == d.op && len(x.Back) > 0 {
			return done{change: x.Back[0], more: x.Back[1:], flash: "Taken back."}
		}
	}
	return done{wrong: "This was changed again since, so there is nothing to take back."}
}

// called gives the words for a card or a line.
func (a *ask) called(entity string) string {
	p := a.plan()
	if c, known := view.FindCard(p, entity); known {
		return c.Title
	}
	if line, known := packLine(p, entity); known {
		return line.Name
	}
	return "this line"
}

func packLine(p plan.Plan, key string) (packing.Line, bool) {
	for _, bag := range p.Pack {
		for _, line := range bag.Lines {
			if line.Key == key {
				return line, true
			}
		}
	}
	return packing.Line{}, false
}

// clip shortens what is quoted back in a message.
func clip(typed string) string {
	runes := []rune(typed)
	if len(runes) > 30 {
		return "“" + string(runes[:30]) + "…”"
	}
	return "“" + typed + "”"
}
