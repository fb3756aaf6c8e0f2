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

func figuresPage(a *ask) *Reply {
	all := a.plan().Figures
	return a.draw("Figures", a.drawFigures(all, a.figureState(all)))
}

func (a *ask) drawFigures(all []figures.Figure, state form.State) view.Node {
	return view.EditFigures(a.frame, all, state, a.in.Get("group"), a.lastOwn(a.job.Colours))
}

// figureState gives what stands in the form: one's own values, empty where the table's holds.
func (a *ask) figureState(all []figures.Figure) form.State {
	state := form.NewState()
	for _, f := range all {
		own, note := "", ""
		if f.Overridden {
			own, note = view.FigureText(f, f.Value, a.frame.Units), a.job.Overrides[f.Key].Note
		}
		for key, text := range map[string]string{view.FigureKey(f.Key): own, view.FigureNote(f.Key): note} {
			state.Values.Set(key, text)
			state.Values.Set(form.Was(key), text)
		}
	}
	return state
}

func saveFigures(a *ask) *Reply {
	if a.in.Get(view.FieldAct) == "last" {
		return a.wrote(a.figureChanges(a.job.Colours), a.at(address.Figures), "Taken over. All counts and cards follow.")
	}
	all := a.plan().Figures
	if reset := a.in.Get("reset"); reset != "" {
		return a.resetFigure(all, reset)
	}
	state := a.figureState(all)
	for key, list := range a.in {
		state.Values[key] = list
	}
	var changes []job.Change
	for _, f := range figures.All() { // a calculator may send one that this job has no use for yet
		changes = append(changes, readFigure(a.in, f, state, a.frame.Units)...)
	}
	if !state.OK() {
		return a.wrong("Figures", a.drawFigures(all, state))
	}
	return a.wrote(changes, a.at(address.Figures), "Saved. All counts and cards follow.")
}

func (a *ask) resetFigure(all []figures.Figure, key string) *Reply {
	for _, f := range all {
		if f.Key == key {
			reply := a.wrote([]job.Change{job.Put("override/"+key, "value", nil)}, a.at(address.Figures),
				"The table's figure holds again for: "+f.Label+".")
			return reply
		}
	}
	return a.trouble("No such figure", "The tables of this job have no figure of that name.",
		"Go back and use the buttons there.")
}

// readFigure reads one's own value of a figure, where it was typed anew.
func readFigure(v form.Values, f figures.Figure, state form.State, units measure.System) []job.Change {
	key, note, entity := view.FigureKey(f.Key), view.FigureNote(f.Key), "override/"+f.Key
	var changes []job.Change
	if v.Has(key) && v.Get(key) != v.Get(form.Was(key)) {
		typed := strings.TrimSpace(v.Get(key))
		if typed == "" {
			return []job.Change{job.Put(entity, "value", nil)}
		}
		allowed := form.Range(view.FigureField(f), units)
		value, err := 0.0, error(nil)
		if f.Unit == "mm" {
			value, err = measure.ParseLengthMM(typed, units)
		} else {
			allowed += " " + f.Unit
			value, err = measure.ParseNumber(strings.TrimSpace(strings.TrimSuffix(typed, f.Unit)))
		}
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
			state.Fail(note, f.Label+": "+plainly(err)+".")
		} else {
			changes = append(changes, change)
		}
	}
	return changes
}
