package forecast

import (
	"slices"

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

// able counts the people who go to a task's place and may do it.
func (f *Forecast) able(t *crew.Task) int {
	if len(t.By) == 0 {
		return f.hands(t.Place)
	}
	n := 0
	for i := range f.job.People {
		p := &f.job.People[i]
		if slices.Contains(t.By, p.Key) && (len(p.Only) == 0 || slices.Contains(p.Only, t.Place)) {
			n++
		}
	}
	return n
}
