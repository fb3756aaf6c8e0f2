package plan

import (
	"garlandry/app/job"
	"garlandry/calc/cluster"
)

// carryRule is bringing the sections of a base that was joined at home through a narrow doorway, where nobody else
// passes meanwhile. Where the doorway is wide they come in when they are put up.
var carryRule = cardRule{
	family: "carry",
	place:  Site,
	noun:   "piece",
	title:  "Carry in ",
	cards: func(d *cardDraft, r *cardRule) {
		if !d.narrow() {
			return
		}
		for _, p := range d.pieces {
			if !p.joined || p.where != Home || len(p.Sections) == 0 {
				continue
			}
			c := r.pieceCard(d, p)
			c.counts(batch{len(p.Sections), "section", "sections"})
			c.Steps = []string{"One at each end, walking slowly; somebody holds the door and keeps people away from it.",
				"Lay it down on the floor sheet where it will go up."}
			if across := cluster.GirthMM(p.Recipe, d.push); across > d.job.Brief.DoorMM {
				c.Steps = append(
					c.Steps,
					"It is "+d.length(across)+" across and the doorway "+d.length(
						d.job.Brief.DoorMM,
					)+": try the first section before you bring the others, and press no balloon against the frame of the door.",
				)
			}
			c.takes(d.together(Site, "carry", float64(len(p.Sections))))
			d.hands(c, d.pair(), d.pair())
			c.After = []string{"card/unload"}
			c.care(lifting, exits)
		}
	},
}

// narrow reports whether the way in leads through a doorway in which two do not pass each other.
func (d *cardDraft) narrow() bool { return narrowDoor(&d.job.Brief, d.figures.get("hands/doorway")) }

// narrowDoor is that for two who need so many millimetres.
func narrowDoor(b *job.Brief, twoMM float64) bool { return b.DoorMM > 0 && b.DoorMM < twoMM }
