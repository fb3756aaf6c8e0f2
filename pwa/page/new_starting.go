package page

import (
	"maps"

	"garlandry/app/job"
	"garlandry/calc/measure"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// starting is a picture with which a piece begins.
type starting struct{ view.StartPiece }

// begin returns the changes that make a piece of the picture with its usual size.
func (p *starting) begin(entity string, units measure.System) []job.Change {
	fields := view.PieceStart(p.Kind)
	maps.Copy(fields, p.With)
	if units == measure.Imperial {
		maps.Copy(fields, p.Feet)
	}
	var changes []job.Change
	for _, f := range nounOf("piece/x").Fields {
		if value, there := fields[f.Name]; there {
			changes = append(changes, job.Put(entity, f.Name, value))
		}
	}
	if len(p.Fields) > 0 {
		measured, _ := p.size(entity, p.Usual(units), units)
		changes = append(changes, measured...)
	}
	return changes
}

// size returns the changes that give a piece the size that was typed, or what is wrong with it.
func (p *starting) size(entity, typed string, units measure.System) ([]job.Change, form.State) {
	n := form.Needed(nounOf("piece/x"), p.Fields[0])
	return form.Entity(n, entity, p.Fields, form.Values{p.Fields[0]: {typed}}, units)
}
