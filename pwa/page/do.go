package page

import (
	"slices"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/plan/packing"
	"garlandry/app/plan/task"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
	"garlandry/pwa/view"
)

// action is a tick, a count or another act of progress, read from its form.
type action struct {
	entity string
	n      int
	given  bool // n was typed
	op     string
	text   string
}

// result is what an action leads to.
type result struct {
	change job.Change
	more   []job.Change // after it
	others []Write      // to other jobs
	flash  string
	undo   *view.Action
	wrong  string // why it is refused; empty if it is not
	same   bool   // nothing would change
	other  bool   // somebody else changed the same field meanwhile
}

// acts are the handlers of actions by name. See [view.Action].
var acts = map[string]func(*request, action) result{
	"tick":     (*request).tick,
	"untick":   (*request).untick,
	"add":      (*request).add,
	"undo":     (*request).undo,
	"count":    (*request).count,
	"pack":     (*request).packed,
	"unpack":   (*request).unpacked,
	"needed":   (*request).needed,
	"unneeded": (*request).unneeded,
	"buy":      (*request).buy,
	"back":     (*request).returned,
	"take":     (*request).take,
	"note":     (*request).note,
	"choose":   (*request).choose,
	"restore":  (*request).restore,
	"revert":   (*request).revert,
	"unfix":    (*request).unfix,
	"took":     (*request).took,
	"unrate":   (*request).unrate,
}

// do checks an action, writes it and returns to the page it was on.
func do(r *request) *Reply {
	act, known := acts[r.in.Get(view.FieldAct)]
	if !known {
		return r.rejected(view.LabelCannot)
	}
	d := action{entity: r.in.Get(view.FieldEntity), op: r.in.Get(view.FieldOp),
		text: strings.TrimSpace(r.in.Get(view.FieldText))}
	if typed := strings.TrimSpace(r.in.Get(view.FieldAmount)); typed != "" {
		r.frame.Mistyped = view.Mistyped{Act: r.in.Get(view.FieldAct), Entity: d.entity, Typed: typed}
		n, err := measure.ParseNumber(typed)
		if err != nil || n != float64(int(n)) || n < -100000 || n > 1000000 {
			return r.rejected("How many must be a whole number from 0 to 1000000; you typed " + quoted(typed) + ".")
		}
		d.n, d.given = int(n), true
	}
	if !r.Scripts && !r.knows(d.entity) { // on a phone the design may have changed after the page was drawn
		return r.rejected(notOnList)
	}
	result := act(r, d)
	if result.wrong != "" {
		return r.rejected(result.wrong)
	}
	if result.same {
		return r.redirect(r.back(), view.LabelUnchanged)
	}
	kind := result.change.Kind
	if kind == "" {
		kind = job.Set
	}
	if !r.Visitor.Role.MayField(kind, result.change.Entity, result.change.Field) {
		return r.forbidden("Your link lets you tick, count and pack only.")
	}
	if result.other {
		return r.noteAgain(d,
			"Somebody changed the note meanwhile. Both are below: write the one to keep")
	}
	if err := job.CheckChange(result.change); err != nil {
		if result.change.Field == "note" {
			return r.noteAgain(d, capitalized(plainMessage(err))+". Not saved yet: what you typed is below")
		}
		return r.rejected("Not saved: " + plainMessage(err) + ".")
	}
	reply := r.save(append([]job.Change{result.change}, result.more...), r.back(), result.flash)
	reply.Undo, reply.Writes = result.undo, append(reply.Writes, result.others...)
	return reply
}

const notOnList = "This line is no longer on a list of this job. Nothing was changed."

// knows reports whether a card or a line is in the plan or has progress. Each act checks other kinds of entities.
func (r *request) knows(entity string) bool {
	if !job.ValidKey(entity) || r.job.State.Registers[entity] != nil || r.job.State.Tallies[entity] != nil {
		return true
	}
	p := r.plan()
	_, card := view.FindCard(p, entity)
	_, line := packLine(p, entity)
	return card || line || slices.ContainsFunc(p.Balloons, func(b count.BalloonLine) bool { return b.Key == entity })
}

func (r *request) tick(d action) result {
	if !job.ValidKey(d.entity) {
		return result{wrong: notOnList}
	}
	var more []job.Change
	p := r.plan()
	if stands := task.Stands(p.Balloons, p.Pack, d.entity); stands != "" {
		more = append(more, job.Put(d.entity, "stands", stands))
	}
	if c, known := view.FindCard(p, d.entity); known && c.Count > 0 { // how many the tick covers
		more = append(more, job.Put(d.entity, "have", max(0, c.Count-r.job.Made(d.entity))))
	}
	return result{change: job.Put(d.entity, "done", true), more: more,
		flash: view.TickWord(d.entity) + ": " + r.nameOf(d.entity) + ".",
		undo:  &view.Action{Act: "untick", Entity: d.entity}}
}

func (r *request) untick(d action) result {
	if !job.ValidKey(d.entity) {
		return result{wrong: notOnList}
	}
	return result{change: job.Put(d.entity, "done", false), flash: "Reopened: " + r.nameOf(d.entity) + ".",
		undo: &view.Action{Act: "tick", Entity: d.entity}}
}

func (r *request) add(d action) result {
	switch {
	case !job.ValidKey(d.entity):
		return result{wrong: notOnList}
	case !d.given || d.n == 0:
		return result{wrong: "How many more? From 1 to 100000."}
	}
	flash, undo := r.filled(d)
	change := job.Count(d.entity, int64(d.n))
	if job.IsCard(d.entity) && job.ValidTallyKind(d.text) {
		change = job.CountOf(d.entity, int64(d.n), d.text)
		if undo != nil {
			undo.Text = d.text
		}
	}
	return result{change: change, flash: flash, undo: undo}
}

// filled says that an addition fills a card, where the page goes on to another card, or that it is more than needed.
func (r *request) filled(d action) (flash string, undo *view.Action) {
	c, known := view.FindCard(r.plan(), d.entity)
	made := c.Made + d.n
	switch {
	case !known || c.Gone || c.Count <= 0 || d.n < 0 || made < c.Count:
		return "", nil
	case made > c.Count:
		flash = measure.FormatNumber(float64(made), 0) + " counted: " + measure.FormatNumber(float64(made-c.Count), 0) +
			" more than needed."
	case r.back() != r.at(address.Next):
		return "", nil
	default:
		flash = view.AllMade(c) + "."
	}
	return flash, &view.Action{Act: "add", Entity: d.entity, N: view.Amount(-d.n)}
}

func (r *request) undo(d action) result {
	if !job.ValidKey(d.entity) {
		return result{wrong: notOnList}
	}
	there := false
	if t := r.job.State.Tally(d.entity); t != nil {
		for _, e := range t.Entries {
			there = there || e.ID == d.op
		}
		for _, c := range t.Counts {
			there = there || c.ID == d.op
		}
	}
	if !there {
		return result{wrong: "There is no such count to undo. Nothing was changed."}
	}
	return result{change: job.TakeBack(d.entity, d.op), flash: "Undone."}
}

func (r *request) count(d action) result {
	switch {
	case !job.ValidKey(d.entity):
		return result{wrong: notOnList}
	case !d.given || d.n < 0:
		return result{wrong: "How many are there? A whole number from 0 to 1000000."}
	}
	changes := job.CountedAs(r.job.State, d.entity, int64(d.n))
	if raw := r.job.State.Register(d.entity, "have").Value(); job.IsCard(d.entity) &&
		raw != nil { // the count replaces what a tick covered
		changes = append(changes, job.Put(d.entity, "have", 0))
	}
	if len(changes) == 0 {
		return result{wrong: "That many are counted already. Nothing was changed."}
	}
	return result{change: changes[0], more: changes[1:], flash: r.countWords(d),
		undo: &view.Action{Act: "count", Entity: d.entity, N: view.Amount(r.made(d.entity)), Spot: "-back"}}
}

// made is how many of a card are made, with what a tick covers.
func (r *request) made(entity string) int {
	if c, known := view.FindCard(r.plan(), entity); known {
		return c.Made
	}
	return r.job.Made(entity)
}

func (r *request) take(d action) result {
	if !job.ValidKey(d.entity) {
		return result{wrong: notOnList}
	}
	flash := r.nameOf(d.entity) + " is " + d.text + "’s."
	switch d.text {
	case "":
		flash = r.nameOf(d.entity) + " is up for grabs."
	case r.Visitor.Name:
		flash = r.nameOf(d.entity) + " is yours."
	}
	return result{change: job.Put(d.entity, "taken", d.text), flash: flash,
		undo: &view.Action{Act: "take", Entity: d.entity, Text: r.job.TakenBy(d.entity), TextGiven: true}}
}

func (r *request) note(d action) result {
	if !job.ValidKey(d.entity) {
		return result{wrong: notOnList}
	}
	now, text := view.NoteOn(r.job, d.entity), oneEnd(d.text)
	was, drawn := r.in[view.FieldWas]
	result := result{change: job.Put(d.entity, "note", text), flash: "Note saved.",
		undo: &view.Action{Act: "note", Entity: d.entity, Text: now, TextGiven: true}}
	if drawn {
		result.same = text == now || text == oneEnd(was[0])
		result.other = !result.same && oneEnd(was[0]) != oneEnd(now)
	}
	return result
}

// oneEnd returns the text with \n line ends and no space around it, because browsers differ.
func oneEnd(text string) string { return strings.TrimSpace(strings.ReplaceAll(text, "\r\n", "\n")) }

// choose answers a note of the plan. An empty pick leaves the decision to the plan.
func (r *request) choose(d action) result {
	key, isChoice := strings.CutPrefix(d.entity, "choice/")
	if !isChoice {
		return result{wrong: "There is nothing to decide here."}
	}
	for _, n := range r.plan().Notes {
		if !n.AskedAs(key) {
			continue
		}
		allowed := d.text == ""
		for _, o := range n.Options {
			allowed = allowed || o.Value == d.text
		}
		if !allowed {
			return result{wrong: "That is not one of the options."}
		}
		change, undo := job.Put(d.entity, "pick", d.text),
			&view.Action{Act: "choose", Entity: d.entity, Text: r.job.Choices[key], TextGiven: true}
		more := pieceAnswers(n)
		if n.Key != key { // a page of an earlier version asks about one piece alone
			more = nil
		}
		if len(more) > 0 {
			undo = &view.Action{Act: "unfix", Text: r.fieldsOf(append([]job.Change{change}, more...))}
		}
		return result{change: change, more: more, flash: "Decided: " + n.Title + ".", undo: undo}
	}
	return result{wrong: "There is nothing left to decide here."}
}

// pieceAnswers takes back the answers for one piece alone, which earlier versions asked for: the new one is for all.
func pieceAnswers(n count.Note) (back []job.Change) {
	for i := range n.Parts {
		if n.Parts[i].Own {
			back = append(back, job.Put("choice/"+n.Parts[i].Key, "pick", ""))
		}
	}
	return back
}

// restore takes back a removal.
func (r *request) restore(d action) result {
	noun, known := job.FindNoun(d.entity)
	if !known || noun.Single || noun.Private || !r.job.State.Removed(d.entity) {
		return result{wrong: "There is nothing to restore."}
	}
	return result{change: job.Put(d.entity, "removed", false), flash: "Back again."}
}

// revert restores the fields that a form changed, except those changed again since.
func (r *request) revert(d action) result {
	for _, x := range view.Events(r.job, r.plan(), r.Visitor.Role, "") {
		if x.Entity == d.entity && x.Stamp.ID == d.op && len(x.Back) > 0 {
			return result{change: x.Back[0], more: x.Back[1:], flash: "Undone."}
		}
	}
	return result{wrong: view.LabelChangedSince}
}

// nameOf returns the name of a card or a line.
func (r *request) nameOf(entity string) string {
	p := r.plan()
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

// quoted quotes what was typed, shortened to 30 characters.
func quoted(typed string) string {
	runes := []rune(typed)
	if len(runes) > 30 {
		return "“" + string(runes[:30]) + "…”"
	}
	return "“" + typed + "”"
}
