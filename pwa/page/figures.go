package page

import (
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

func figuresPage(r *request) *Reply {
	all := r.plan().Figures
	return r.draw("My numbers", r.drawFigures(all, r.figureState(all)))
}

func (r *request) drawFigures(all []figures.Figure, state form.State) view.Node {
	return view.EditFigures(r.frame, all, state, r.in.Get("group"), r.lastOwn(r.job.Colours))
}

// figureState returns the contents of the form: own values, "" where the table's applies.
func (r *request) figureState(all []figures.Figure) form.State {
	state := form.NewState()
	for _, f := range all {
		own, note := "", ""
		if f.Overridden {
			own, note = view.FigureText(f, f.Value, r.frame.Units), r.job.Overrides[f.Key].Note
		}
		for key, text := range map[string]string{view.FigureKey(f.Key): own, view.FigureNote(f.Key): note} {
			state.Values.Set(key, text)
			state.Values.Set(form.Was(key), text)
		}
	}
	return state
}

func saveFigures(r *request) *Reply {
	if r.in.Get(view.FieldAct) == "last" {
		return r.save(r.figureChanges(r.job.Colours), r.at(address.Figures), "Copied. Counts and cards are updated.")
	}
	all := r.plan().Figures
	if reset := r.in.Get("reset"); reset != "" {
		return r.resetFigure(all, reset)
	}
	state := r.figureState(all)
	for key, list := range r.in {
		state.Values[key] = list
	}
	var changes []job.Change
	for _, f := range figures.All() { // a calculator may send one that this job does not use yet
		changes = append(changes, readFigure(r.in, f, state, r.frame.Units)...)
	}
	if !state.OK() {
		return r.invalid("My numbers", r.drawFigures(all, state))
	}
	return r.save(changes, r.at(address.Figures), "Saved. Counts and cards are updated.")
}

func (r *request) resetFigure(all []figures.Figure, key string) *Reply {
	for _, f := range all {
		if f.Key == key {
			reply := r.save([]job.Change{job.Put("override/"+key, "value", nil)}, r.at(address.Figures),
				"Back to the table’s number: "+f.Label+".")
			return reply
		}
	}
	return r.trouble("No such number", "The tables have no number of that name.", view.LabelGoBack)
}

// readFigure reads an own value of a figure if it was changed.
func readFigure(v form.Values, f figures.Figure, state form.State, units measure.System) []job.Change {
	key, note, entity := view.FigureKey(f.Key), view.FigureNote(f.Key), "override/"+f.Key
	var changes []job.Change
	if v.Has(key) && v.Get(key) != v.Get(form.Was(key)) {
		typed := strings.TrimSpace(v.Get(key))
		if typed == "" {
			return []job.Change{job.Put(entity, "value", nil)}
		}
		allowed := strings.TrimSpace(view.FigureRange(f, units) + " " + view.FigureUnit(f, units))
		value, err := view.ReadFigure(f, typed, units)
		switch {
		case err != nil:
			state.Fail(key, f.Label+": write a number from "+allowed+".")
		case value < f.Min || value > f.Max:
			state.Fail(key, f.Label+" must be from "+allowed+".")
		default:
			changes = append(changes, job.Put(entity, "value", value))
		}
	}
	if v.Has(note) && v.Get(note) != v.Get(form.Was(note)) {
		change := job.Put(entity, "note", strings.TrimSpace(v.Get(note)))
		if err := job.CheckChange(change); err != nil {
			state.Fail(note, f.Label+": "+plainMessage(err)+".")
		} else {
			changes = append(changes, change)
		}
	}
	return changes
}
