package task

import (
	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/calc/cluster"
)

// carryRule adds the cards for carrying sections that were joined at home through a narrow doorway. Nobody else can
// pass meanwhile. Through a wide doorway they come in when they are put up.
var carryRule = rule{
	family: FamilyCarry,
	place:  Site,
	noun:   "piece",
	title:  "Carry in ",
	cards: func(d *draft, r *rule) {
		if !d.narrow() || d.transport.None {
			return
		}
		for _, p := range d.Pieces {
			if !p.InSections() {
				continue
			}
			c := r.pieceCard(d, p)
			c.counts(count.Batch{Count: len(p.Sections), One: "section", Many: "sections"})
			c.Steps = []string{"One person at each end. Walk slowly. Somebody holds the door and keeps people back.",
				"Lay it on the floor sheet where it will go up."}
			if across := cluster.WidestMM(p.Recipe, d.Push); across > d.Job.Brief.DoorMM {
				c.Steps = append(c.Steps, "It is "+d.Length(across)+" across and the doorway "+d.Length(d.Job.Brief.DoorMM)+
					". Try one section first, and keep balloons off the door frame.")
			}
			c.takes(d.together(Site, "carry", float64(len(p.Sections))))
			d.hands(c, d.pair(), d.pair())
			c.After = append([]Ref{FamilyUnload.Only()}, d.arrivals(p)...)
			c.care(lifting, exits)
		}
	},
}

// narrow reports whether two people cannot pass each other in the doorway.
func (d *draft) narrow() bool { return NarrowDoor(&d.Job.Brief, d.Figures.Get("hands/doorway")) }

// NarrowDoor reports whether the doorway is too narrow for two people who need twoMM to pass each other.
func NarrowDoor(b *job.Brief, twoMM float64) bool { return b.DoorMM > 0 && b.DoorMM < twoMM }
