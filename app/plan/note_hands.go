package plan

import (
	"garlandry/app/plan/count"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/task"
)

// handsNotes says when nobody is in the crew, when a card is done alone, and when there are too few for one.
func handsNotes(d *draft) {
	if len(d.Job.Crew) == 0 && len(d.Pieces) > 0 {
		d.Inform("", "No crew yet: times are for one practised person.")
	}
	for _, c := range d.cards {
		if key := task.AloneKey(c.Key); d.Picked(key, task.AloneOptions()) == task.PickAlone {
			d.Note(count.Note{Key: key, Kind: "warning", Piece: c.Piece, Options: task.AloneOptions(),
				Picked: task.PickAlone, Title: c.Title,
				Text: "“" + c.Title + "” is planned for one pair of hands. A second pair is safer: ask somebody."})
		}
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
