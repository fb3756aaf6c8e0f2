package plan

import (
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/task"
)

// handsNotes says when nobody is in the crew, or too few for a card.
func handsNotes(d *draft) {
	if len(d.Job.Crew) == 0 && len(d.Pieces) > 0 {
		d.Inform("", "No crew yet: times are for one practised person.")
	}
	if len(d.Site) > 1 {
		return
	}
	for _, c := range d.cards {
		if c.Place == task.Site && c.HandsMin > 1 {
			d.Warn(c.Piece,
				"“"+c.Title+"” needs "+phrase.Count(c.HandsMin, "person", "people")+
					" at once, and you have one. Ask somebody to help.")
			return
		}
	}
}
