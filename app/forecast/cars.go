package forecast

import (
	"garlandry/app/plan"
	"garlandry/calc/crew"
)

// carThing is the key of a car among the things.
func carThing(id string) string { return "car/" + id }

// cars adds every car that a card occupies.
func (f *Forecast) cars(p *plan.Plan) {
	known := map[string]bool{}
	for i := range p.Cards {
		for _, id := range p.Cards[i].Cars {
			if !known[id] {
				known[id] = true
				f.job.Things = append(f.job.Things, crew.Thing{Key: carThing(id), Count: 1})
			}
		}
	}
}
