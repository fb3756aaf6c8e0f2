package task

import (
	"strings"

	"garlandry/app/plan/phrase"
)

// unloadRule adds the card for carrying everything in.
var unloadRule = rule{
	family: FamilyUnload,
	place:  Site,
	title:  "Unload and carry in",
	cards: func(d *draft, r *rule) {
		if len(d.pack) == 0 || d.transport.None {
			return
		}
		c := r.card(d, "", "")
		c.Steps = []string{"Lay the floor sheet. Then carry in the bags, each to where its piece goes.",
			"Park where the venue says. Keep doors and exits clear."}
		if way := strings.TrimSpace(d.Job.Brief.Parking); way != "" {
			c.Steps = append(c.Steps, "The way in: "+phrase.Sentence(way))
		}
		most := d.most()
		if d.narrow() {
			most = d.pair()
			c.Steps = append(c.Steps,
				"The doorway is narrow ("+d.Length(d.Job.Brief.DoorMM)+"): frames first, one way at a time.")
		}
		c.takes(d.carryIn(d.firstThings(), min(most, len(d.Site))))
		d.hands(c, 1, most)
		c.Cars = d.allCars()
		c.After = []Ref{FamilyLoad.Only()}
		c.care(lifting)
	},
}
