package page

import (
	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// draft is a piece as it stands in a form, saved or not.
type draft struct {
	id      string // empty: a new one
	kind    job.PieceKind
	line    string
	fields  []string
	state   form.State
	changes []job.Change
}

// unsaved stands for the id of a piece that has none yet.
const unsaved = "unsaved"

// entity gives the draft's entity.
func (d *draft) entity() string {
	if d.id == "" {
		return "piece/" + unsaved
	}
	return "piece/" + d.id
}

// noun gives the noun of pieces with what this kind needs required.
func (d *draft) noun() *job.Noun {
	_, needed := view.PieceFields(d.kind, d.line)
	return form.Needed(nounOf("piece/x"), needed...)
}

// shape settles kind and line, and with them the fields.
func (d *draft) shape(kind, line string) {
	d.kind, d.line = job.PieceKind(kind), line
	d.fields, _ = view.PieceFields(d.kind, d.line)
}

// begun gives the form of a new piece: what its kind begins with, and some of every colour.
func (a *ask) begun(kind string) *draft {
	d := &draft{}
	d.shape(kind, "typed")
	j := a.job
	var changes []job.Change
	start := view.PieceStart(d.kind)
	for _, f := range nounOf("piece/x").Fields {
		if value, there := start[f.Name]; there {
			changes = append(changes, job.Put(d.entity(), f.Name, value))
		}
	}
	shares := []job.Share{}
	for _, c := range j.Colours {
		shares = append(shares, job.Share{Colour: c.ID, Weight: 1})
	}
	changes = append(changes, job.Put(d.entity(), "colours", shares))
	filled := form.Fill(d.noun(), form.Try(j, changes).State, d.entity(), d.fields, a.frame.Units)
	d.state = form.NewState()
	for key, list := range filled.Values {
		if !isWas(key) {
			d.state.Values[key] = list
		}
	}
	return d
}

func isWas(key string) bool { return len(key) > 4 && key[:4] == form.Was("") }

// read takes what was typed into a piece's form, by the fields of the kind and line that it says.
func (a *ask) read(id string, v form.Values) *draft {
	d := &draft{id: id}
	kind, line := v.Get("kind"), v.Get("line")
	if p, known := a.job.Piece(id); known {
		if kind == "" {
			kind = string(p.Kind)
		}
		if line == "" {
			line = p.Line
		}
	}
	d.shape(kind, line)
	d.changes, d.state = form.Entity(d.noun(), d.entity(), d.fields, v, a.frame.Units)
	if !view.KnownKind(d.kind) {
		d.state.Fail("kind", "Pick one of the kinds of piece.")
	}
	if d.state.OK() {
		a.checkPiece(d)
	}
	if !d.state.OK() {
		d.changes = nil
	}
	return d
}

func newPiece(a *ask) *Reply {
	kind := a.in.Get("kind")
	if !view.KnownKind(job.PieceKind(kind)) {
		return a.draw("New piece", view.NewPiece(a.frame))
	}
	if a.in.Has("name") {
		return a.draw("New piece", a.drawPiece(a.read("", a.in), true))
	}
	return a.draw("New piece", a.drawPiece(a.begun(kind), true))
}

func addPiece(a *ask) *Reply {
	d := a.read("", a.in)
	if !view.KnownKind(d.kind) {
		return a.wrong("New piece", view.NewPiece(a.frame))
	}
	if a.in.Get(view.FieldAct) == "show" {
		return a.draw("New piece", a.drawPiece(d, true))
	}
	if !d.state.OK() {
		return a.wrong("New piece", a.drawPiece(d, false))
	}
	entity := "piece/" + a.newID(a.in.Get("name"))
	changes := filledOnly(d.changes)
	for i := range changes {
		changes[i].Entity = entity
	}
	changes = append(changes, job.Put(entity, "order", after(pieceEntries(a.job))))
	return a.wrote(changes, a.at(address.Pieces), "Added "+clean(a.in.Get("name"))+".")
}

func piece(a *ask) *Reply {
	p, known := a.job.Piece(a.address.Item)
	if !known {
		return a.notFound()
	}
	if !a.frame.Edits() {
		return a.draw(p.Name, view.PieceShown(a.frame, countOf(a.plan(), p.ID), a.plan().Notes))
	}
	if a.in.Has("name") {
		return a.draw(p.Name, a.drawPiece(a.read(p.ID, a.in), true))
	}
	d := &draft{id: p.ID}
	d.shape(string(p.Kind), p.Line)
	if other := a.in.Get("kind"); view.KnownKind(job.PieceKind(other)) {
		d.shape(other, p.Line)
	}
	d.state = form.Fill(d.noun(), a.job.State, d.entity(), d.fields, a.frame.Units)
	if d.kind != p.Kind {
		d.state.Values.Set("kind", string(d.kind))
		d.changes = []job.Change{job.Put(d.entity(), "kind", string(d.kind))}
	}
	return a.draw(p.Name, a.drawPiece(d, true))
}

func savePiece(a *ask) *Reply {
	gone := a.bringBack("piece/" + a.address.Item)
	p, known := a.job.Piece(a.address.Item)
	act := a.in.Get(view.FieldAct)
	if !known || gone && (act == "remove" || act == "use") {
		return a.trouble("Not here any more", "Somebody may have removed the piece meanwhile.", "Look at the list of pieces.")
	}
	switch act {
	case "copy":
		return copyPiece(a, p)
	case "remove":
		return removePiece(a, p)
	case "use":
		return usePiece(a, p)
	}
	d := a.read(p.ID, a.in)
	if act == "show" {
		return a.draw(p.Name, a.drawPiece(d, true))
	}
	if gone {
		d.changes, d.state = backToo(d.entity(), d.changes, d.state)
	}
	if !d.state.OK() {
		return a.wrong(p.Name, a.drawPiece(d, false))
	}
	return a.wrote(d.changes, a.at(address.Pieces), "Saved "+clean(d.state.Get("name"))+".")
}

// drawPiece draws a piece's form with what it takes as it stands. While it is being typed, what is wrong stands beside
// the count and not yet at the fields.
func (a *ask) drawPiece(d *draft, typing bool) view.Node {
	p := view.PiecePage{ID: d.id, Kind: d.kind, Line: d.line, Notes: a.plan().Notes}
	if d.state.OK() {
		if count, known := findCount(a.tried(d), d); known {
			p.Count = count
		} else {
			p.Wrong = "It cannot be counted yet."
		}
	} else {
		p.Wrong = "Not counted: something in the form needs a look."
		if wrong := d.state.Wrong(); len(wrong) > 0 {
			p.Wrong = d.state.Errors[wrong[0]]
		}
	}
	if typing {
		d.state.Errors, d.state.Alert = map[string]string{}, ""
	}
	p.Editor = a.pieceEditor(d)
	return view.EditPiece(a.frame, p)
}

func (a *ask) pieceEditor(d *draft) view.Editor {
	return view.Editor{Noun: d.noun(), Fields: d.fields, State: d.state, Colours: a.job.Colours,
		Options: map[string][]job.Choice{"frame": frameChoices(&a.job), "size_in": view.SizeChoices()}}
}

// tried gives the plan of the job as it would be with the draft.
func (a *ask) tried(d *draft) plan.Plan {
	changes := d.changes
	if d.id == "" && len(changes) == 0 {
		full, _ := form.Entity(d.noun(), d.entity(), d.fields, d.state.Values, a.frame.Units)
		changes = full
	}
	return plan.Design(form.Try(a.job, changes))
}

func findCount(p plan.Plan, d *draft) (count.PieceCount, bool) {
	for _, c := range p.Pieces {
		if "piece/"+c.Piece.ID == d.entity() {
			return c, true
		}
	}
	return count.PieceCount{}, false
}

func countOf(p plan.Plan, id string) count.PieceCount {
	count, _ := findCount(p, &draft{id: id})
	return count
}
