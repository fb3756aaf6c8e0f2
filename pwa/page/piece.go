package page

import (
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/calc/latex"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// draft is a piece in a form.
type draft struct {
	id      string // empty: a new one
	kind    job.PieceKind
	line    string
	fields  []string
	state   form.State
	changes []job.Change
}

// unsaved is the id of a piece that is not saved yet.
const unsaved = "unsaved"

// entity returns the draft's entity.
func (d *draft) entity() string {
	if d.id == "" {
		return "piece/" + unsaved
	}
	return "piece/" + d.id
}

// noun returns the noun of pieces with what this kind needs required.
func (d *draft) noun() *job.Noun {
	_, needed := view.PieceFields(d.kind, d.line)
	return form.Needed(nounOf("piece/x"), needed...)
}

// shape sets kind and line, and the fields that follow from them.
func (d *draft) shape(kind, line string) {
	d.kind, d.line = job.PieceKind(kind), line
	d.fields, _ = view.PieceFields(d.kind, d.line)
}

// blankPiece returns the form of a new piece: the usual size and the defaults of its picture, and an equal share of
// every colour.
func (r *request) blankPiece(kind string) *draft {
	d := &draft{}
	d.shape(kind, "typed")
	j := r.job
	picture := starting{view.StartPiece{Kind: d.kind}}
	for _, p := range view.StartPieces() {
		line, bent := p.With["line"].(string)
		if p.Kind == d.kind && line == r.in.Get("line") {
			picture = starting{p}
		}
		if bent && picture.Key == p.Key {
			d.shape(kind, line)
		}
	}
	size, _ := picture.size(d.entity(), picture.Usual(r.frame.Units), r.frame.Units)
	changes := picture.begin(d.entity(), r.frame.Units, size)
	shares := []job.Share{}
	for _, c := range j.Colours {
		shares = append(shares, job.Share{Colour: c.ID, Weight: 1})
	}
	changes = append(changes, job.Put(d.entity(), "colours", shares))
	filled := form.Fill(d.noun(), job.Try(j, changes).State, d.entity(), d.fields, r.frame.Units)
	d.state = form.NewState()
	for key, list := range filled.Values {
		if !wasField(key) {
			d.state.Values[key] = list
		}
	}
	return d
}

func wasField(key string) bool { return strings.HasPrefix(key, form.Was("")) }

// read reads a piece's form, with the fields of the kind and line picked in it.
func (r *request) read(id string, v form.Values) *draft {
	d := &draft{id: id}
	kind, line := v.Get("kind"), v.Get("line")
	if p, known := r.job.Piece(id); known {
		if kind == "" {
			kind = string(p.Kind)
		}
		if line == "" {
			line = p.Line
		}
	}
	d.shape(kind, line)
	v = followSize(v)
	d.changes, d.state = form.Entity(d.noun(), d.entity(), d.fields, v, r.frame.Units)
	if !view.KnownKind(d.kind) {
		d.state.Fail("kind", "Pick one of the kinds of piece.")
	}
	if d.state.OK() {
		r.checkPiece(d)
	}
	if !d.state.OK() {
		d.changes = nil
	}
	return d
}

// followSize empties what balloons are sized to if their size was changed and the old size's usual was left standing.
// Empty means the usual of the new size.
func followSize(v form.Values) form.Values {
	was, err := strconv.Atoi(v.Get(form.Was("size_in")))
	to, notSized := measure.ParseNumber(v.Get("to_in"))
	if err != nil || notSized != nil || v.Get("size_in") == v.Get(form.Was("size_in")) ||
		v.Get("to_in") != v.Get(form.Was("to_in")) || to != latex.UsualIn(was) {
		return v
	}
	v = v.Clone()
	v.Set("to_in", "")
	return v
}

func newPiece(r *request) *Reply {
	kind := r.in.Get("kind")
	if !view.KnownKind(job.PieceKind(kind)) {
		return r.draw("New piece", view.NewPiece(r.frame, r.job.Colours))
	}
	if r.in.Has("name") {
		return r.draw("New piece", r.drawPiece(r.read("", r.in), true))
	}
	return r.draw("New piece", r.drawPiece(r.blankPiece(kind), true))
}

func addPiece(r *request) *Reply {
	d := r.read("", r.in)
	if !view.KnownKind(d.kind) {
		return r.invalid("New piece", view.NewPiece(r.frame, r.job.Colours))
	}
	if r.in.Get(view.FieldAct) == "show" {
		return r.draw("New piece", r.drawPiece(d, true))
	}
	if !d.state.OK() {
		return r.invalid("New piece", r.drawPiece(d, false))
	}
	entity := "piece/" + r.newID(r.in.Get("name"))
	changes := filledOnly(d.changes)
	for i := range changes {
		changes[i].Entity = entity
	}
	changes = append(changes, job.Put(entity, "order", after(pieceEntries(r.job))))
	return r.save(changes, r.at(address.Pieces), "Added "+clean(r.in.Get("name"))+".")
}

func piece(r *request) *Reply {
	p, known := r.job.Piece(r.address.Item)
	if !known {
		return r.notFound()
	}
	r.pick()
	if !r.frame.Edits() {
		whole := r.plan()
		c := countOf(whole, p.ID)
		return r.draw(p.Name, view.PieceShown(r.frame, r.job, c, whole.Look(&c, 0), whole.Notes))
	}
	if r.in.Has("name") {
		return r.draw(p.Name, r.drawPiece(r.read(p.ID, r.in), true))
	}
	d := &draft{id: p.ID}
	d.shape(string(p.Kind), p.Line)
	if other := r.in.Get("kind"); view.KnownKind(job.PieceKind(other)) {
		d.shape(other, p.Line)
	}
	d.state = form.Fill(d.noun(), r.job.State, d.entity(), d.fields, r.frame.Units)
	if d.kind != p.Kind {
		d.state.Values.Set("kind", string(d.kind))
		d.changes = []job.Change{job.Put(d.entity(), "kind", string(d.kind))}
	}
	return r.draw(p.Name, r.drawPiece(d, true))
}

func savePiece(r *request) *Reply {
	gone := r.bringBack("piece/" + r.address.Item)
	p, known := r.job.Piece(r.address.Item)
	act := r.in.Get(view.FieldAct)
	r.pick()
	if !known || gone && (act == "remove" || act == "use") {
		return r.trouble(view.LabelRemoved, view.LabelRemovedPiece, "Look at the list of pieces.")
	}
	switch act {
	case "copy":
		return copyPiece(r, p)
	case "remove":
		return removePiece(r, p)
	case "use":
		return usePiece(r, p)
	case "hand":
		return handPiece(r, p)
	}
	d := r.read(p.ID, r.in)
	if act == "show" {
		return r.draw(p.Name, r.drawPiece(d, true))
	}
	if gone {
		d.changes, d.state = restoring(d.entity(), d.changes, d.state)
	}
	if !d.state.OK() {
		return r.invalid(p.Name, r.drawPiece(d, false))
	}
	return r.save(d.changes, r.at(address.Pieces), "Saved "+clean(d.state.Get("name"))+".")
}

// drawPiece draws a piece's form with its count. While somebody is typing, it shows errors beside the count only.
func (r *request) drawPiece(d *draft, typing bool) view.Node {
	p := view.PiecePage{ID: d.id, Kind: d.kind, Line: d.line, Notes: r.plan().Notes,
		Layers: r.job.LayersOf(d.id)}
	if d.state.OK() {
		with := r.planWith(d)
		if count, known := findCount(with, d); known {
			p.Count, p.Look = count, with.Look(&count, 0)
		} else {
			p.Wrong = "Not counted yet."
		}
	} else {
		p.Wrong = "Not counted: check the form."
		if wrong := d.state.Wrong(); len(wrong) > 0 {
			p.Wrong = d.state.Errors[wrong[0]]
		}
	}
	if typing {
		d.state.Errors, d.state.Alert = map[string]string{}, ""
	}
	p.Editor = r.pieceEditor(d)
	saved, _ := r.job.Piece(d.id)
	p.ByHand = saved.Pattern == job.ByHand
	return view.EditPiece(r.frame, p)
}

func (r *request) pieceEditor(d *draft) view.Editor {
	kind, _ := count.KindOf(count.Kinds(), d.kind)
	return view.Editor{Noun: d.noun(), Fields: d.fields, State: d.state, Colours: r.job.Colours,
		Options: map[string][]job.Choice{"frame": frameChoices(&r.job, kind.Stand), "size_in": view.SizeChoices()}}
}

// planWith returns the plan of the job with the draft.
func (r *request) planWith(d *draft) plan.Plan {
	changes := d.changes
	if d.id == "" && len(changes) == 0 {
		full, _ := form.Entity(d.noun(), d.entity(), d.fields, d.state.Values, r.frame.Units)
		changes = full
	}
	return plan.Counted(job.Try(r.job, changes))
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
