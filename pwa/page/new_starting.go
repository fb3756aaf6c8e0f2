package page

import (
	"maps"
	"slices"

	"garlandry/app/job"
	"garlandry/calc/measure"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// starting is a picture with which a piece begins.
type starting struct{ view.StartPiece }

// begin returns the changes that make a piece of the picture, with each field set once: its size may set some itself.
func (p *starting) begin(entity string, units measure.System, size []job.Change) []job.Change {
	fields := view.PieceStart(p.Kind)
	maps.Copy(fields, p.With)
	if units == measure.Imperial {
		maps.Copy(fields, p.Feet)
	}
	var changes []job.Change
	for _, f := range nounOf("piece/x").Fields {
		value, there := fields[f.Name]
		if there && !slices.ContainsFunc(size, func(c job.Change) bool { return c.Field == f.Name }) {
			changes = append(changes, job.Put(entity, f.Name, value))
		}
	}
	return append(changes, size...)
}

// size returns the changes that give a piece the size that was typed, or what is wrong with it. A picture that asks for
// no size has none.
func (p *starting) size(entity, typed string, units measure.System) ([]job.Change, form.State) {
	if len(p.Fields) == 0 {
		return nil, form.NewState()
	}
	n := form.Needed(nounOf("piece/x"), p.Fields[0])
	return form.Entity(n, entity, p.Fields, form.Values{p.Fields[0]: {typed}}, units)
}
