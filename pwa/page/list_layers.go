package page

import (
	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// layersOf returns the list of the layers of the address's piece.
func layersOf(r *request) (*list, bool) {
	p, known := r.job.Piece(r.address.Item)
	l := &list{noun: "layer", address: address.Layers, within: p.ID, title: "Layers of " + p.Name, what: "a layer",
		lead:  "Layers sit on the base, one on top of another.",
		teach: "Clusters on the base that round it off or let it swell."}
	l.fields = []string{"name", "count", "cover_pct", "from_pct", "to_pct", "side", "recipe", "colours", "tie", "built",
		"notes"}
	if kind, _ := count.KindOf(count.Kinds(), p.Kind); kind.Form != count.Strung { // only a string has sides
		l.fields = append(l.fields[:5], l.fields[6:]...)
	}
	l.begin = func(entity string) []job.Change { return []job.Change{job.Put(entity, "piece", p.ID)} }
	l.entries = func(j *job.Job) (all []entry) {
		c := countOf(r.plan(), p.ID)
		for _, layer := range j.LayersOf(p.ID) {
			all = append(all, entry{id: layer.ID, title: layer.Called(), below: c.LayerWords(layer.ID), order: layer.Order})
		}
		return all
	}
	l.check = func(j *job.Job, id string) (faults []*job.FieldError) {
		for i := range j.Layers {
			if j.Layers[i].ID == id {
				faults = j.Layers[i].CheckTogether()
			}
		}
		if why := countOf(plan.Design(*j), p.ID).Oversized(); why != "" {
			faults = append(faults, &job.FieldError{Path: "count", Message: why + ". Use fewer clusters."})
		}
		return faults
	}
	l.beside = func(left *outcome) view.Node {
		wrong, changes := "", []job.Change(nil)
		if left != nil {
			wrong, changes = left.wrong, left.changes
		}
		with := plan.Design(job.Try(r.job, changes))
		c := countOf(with, p.ID)
		return view.PieceBeside(r.frame, c, with.Look(&c, 0), wrong, r.job.Colours)
	}
	return l, known
}

func layersPage(r *request) *Reply {
	l, known := layersOf(r)
	switch {
	case !known:
		return r.notFound()
	case r.in.Has(view.FieldAct):
		return l.typing(r)
	}
	return l.page(r)
}

func changeLayers(r *request) *Reply {
	l, known := layersOf(r)
	if !known {
		return r.trouble(view.LabelRemoved, view.LabelRemovedPiece, "Look at the list of pieces.")
	}
	return l.act(r)
}

// typing answers with the page as one of its forms stands, and stores nothing. Errors are said beside the form only.
func (l *list) typing(r *request) *Reply {
	left := &outcome{id: r.in.Get("id")}
	prefix, entity := left.id+".", l.noun+"/"+left.id
	if left.id == "" {
		prefix, entity = "new.", l.noun+"/"+unsaved
	}
	left.changes, left.state = form.Entity(l.job(), entity, l.fields, r.in.Within(prefix), r.frame.Units)
	if wrong := left.state.Wrong(); len(wrong) > 0 {
		left.wrong = left.state.Errors[wrong[0]]
	} else if left.id == "" {
		left.changes = append(left.changes, l.begin(entity)...)
	}
	left.state.Errors, left.state.Alert = map[string]string{}, ""
	reply := l.draw(r, left)
	reply.Status = statusOK
	return reply
}
