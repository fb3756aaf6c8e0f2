package page

import (
	"slices"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// layerDraft is a layer of a piece in a form.
type layerDraft struct {
	piece   job.Piece
	id      string // empty: a new one
	state   form.State
	changes []job.Change
}

func (d *layerDraft) entity() string {
	if d.id == "" {
		return "layer/" + unsaved
	}
	return "layer/" + d.id
}

// layerFields returns the fields of a layer on a piece. Only a string has sides.
func layerFields(p *job.Piece) []string {
	fields := []string{"name", "recipe", "colours", "count", "cover_pct", "from_pct", "to_pct", "side", "tie", "built",
		"notes"}
	if kind, _ := count.KindOf(count.Kinds(), p.Kind); kind.Form != count.Strung {
		fields = slices.DeleteFunc(fields, func(name string) bool { return name == "side" })
	}
	return fields
}

func newLayer(r *request) *Reply {
	p, known := r.job.Piece(r.address.Item)
	if !known {
		return r.notFound()
	}
	d := &layerDraft{piece: p, state: form.Blank(nounOf("layer/x"), layerFields(&p), r.frame.Units)}
	if r.in.Has("name") {
		d = r.readLayer(p, "")
	}
	return r.draw("New layer", r.drawLayer(d, true))
}

// changeLayers adds a layer to a piece, or moves one.
func changeLayers(r *request) *Reply {
	p, known := r.job.Piece(r.address.Item)
	if !known {
		return r.trouble(view.LabelRemoved, view.LabelRemovedPiece, "Look at the list of pieces.")
	}
	if act := r.in.Get(view.FieldAct); act == "up" || act == "down" {
		return r.save(moved("layer", layerEntries(r.job, p.ID), r.in.Get("id"), act == "up"), r.at(address.Piece, p.ID),
			"Moved.")
	}
	d := r.readLayer(p, "")
	if r.in.Get(view.FieldAct) == "show" {
		return r.draw("New layer", r.drawLayer(d, true))
	}
	if !d.state.OK() {
		return r.invalid("New layer", r.drawLayer(d, false))
	}
	entity := "layer/" + r.newID(r.in.Get("name"))
	changes := filledOnly(d.changes)
	for i := range changes {
		changes[i].Entity = entity
	}
	changes = append(changes, job.Put(entity, "order", after(layerEntries(r.job, p.ID))))
	return r.save(changes, r.at(address.Piece, p.ID), "Added a layer to "+p.Name+".")
}

func layer(r *request) *Reply {
	d, known := r.storedLayer()
	if !known {
		return r.notFound()
	}
	if r.in.Has("name") {
		d = r.readLayer(d.piece, d.id)
	} else {
		d.state = form.Fill(nounOf("layer/x"), r.job.State, d.entity(), layerFields(&d.piece), r.frame.Units)
	}
	return r.draw("Layer", r.drawLayer(d, true))
}

func saveLayer(r *request) *Reply {
	gone := r.bringBack("layer/" + r.address.Item)
	act := r.in.Get(view.FieldAct)
	d, known := r.storedLayer()
	if !known || gone && act == "remove" {
		return r.trouble(view.LabelRemoved, "Somebody may have removed it.", view.LabelLookAgain)
	}
	to := r.at(address.Piece, d.piece.ID)
	if act == "remove" {
		reply := r.save([]job.Change{job.Put(d.entity(), "removed", true)}, to, "Removed a layer of "+d.piece.Name+".")
		reply.Undo = &view.Action{Act: "restore", Entity: d.entity(), Back: to}
		return reply
	}
	d = r.readLayer(d.piece, d.id)
	if act == "show" {
		return r.draw("Layer", r.drawLayer(d, true))
	}
	if gone {
		d.changes, d.state = restoring(d.entity(), d.changes, d.state)
	}
	if !d.state.OK() {
		return r.invalid("Layer", r.drawLayer(d, false))
	}
	return r.save(d.changes, to, "Saved a layer of "+d.piece.Name+".")
}

// storedLayer returns the layer of the address, without its form.
func (r *request) storedLayer() (*layerDraft, bool) {
	p, known := r.job.Piece(r.address.Of)
	d := &layerDraft{piece: p, id: r.address.Item}
	return d, known && slices.ContainsFunc(layerEntries(r.job, p.ID), func(e entry) bool { return e.id == d.id })
}

func layerEntries(j job.Job, piece string) []entry {
	var all []entry
	for _, l := range j.LayersOf(piece) {
		all = append(all, entry{id: l.ID, order: l.Order})
	}
	return all
}

// readLayer reads the form of a layer and checks it together with its piece.
func (r *request) readLayer(p job.Piece, id string) *layerDraft {
	d := &layerDraft{piece: p, id: id}
	fields := layerFields(&p)
	d.changes, d.state = form.Entity(form.Needed(nounOf("layer/x"), "recipe"), d.entity(), fields, r.in, r.frame.Units)
	if !d.state.OK() {
		return d
	}
	if id == "" {
		d.changes = append(d.changes, job.Put(d.entity(), "piece", p.ID))
	}
	tried := job.Try(r.job, d.changes)
	for _, c := range d.changes {
		checkShares(&d.state, c, &tried)
	}
	for i := range tried.Layers {
		if l := &tried.Layers[i]; "layer/"+l.ID == d.entity() {
			d.state = d.state.Together(l.CheckTogether(), fields)
		}
	}
	if d.state.OK() {
		if why := countOf(plan.Design(tried), p.ID).Oversized(); why != "" {
			d.state.Fail("count", capitalized(why)+". Use fewer clusters.")
		}
	}
	if !d.state.OK() {
		d.changes = nil
	}
	return d
}

// drawLayer draws a layer's form with the count and the picture of its piece. While somebody is typing, it shows errors
// beside the count only.
func (r *request) drawLayer(d *layerDraft, typing bool) view.Node {
	p := view.LayerPage{Piece: d.piece, ID: d.id}
	changes := d.changes
	if d.id == "" && len(changes) == 0 && d.state.OK() {
		changes = []job.Change{job.Put(d.entity(), "piece", d.piece.ID)}
	}
	if wrong := d.state.Wrong(); len(wrong) > 0 {
		p.Wrong = d.state.Errors[wrong[0]]
	}
	with := plan.Design(job.Try(r.job, changes))
	p.Count = countOf(with, d.piece.ID)
	p.Look = with.Look(&p.Count, 0)
	if typing {
		d.state.Errors, d.state.Alert = map[string]string{}, ""
	}
	p.Editor = view.Editor{Noun: form.Needed(nounOf("layer/x"), "recipe"), Fields: layerFields(&d.piece), State: d.state,
		Colours: r.job.Colours}
	return view.EditLayer(r.frame, p)
}
