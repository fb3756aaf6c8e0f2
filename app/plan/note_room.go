package plan

import (
	"slices"

	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/app/plan/look"
	"garlandry/app/plan/phrase"
	"garlandry/calc/measure"
)

// looseMM is how far a piece may reach past a wall, the ceiling or the floor unnoticed: balloons give way.
const looseMM = 20

// fitted adds the notes about what does not fit into the room.
func (p Plan) fitted(j job.Job) Plan {
	brief := &j.Brief
	asked := brief.RoomWidthMM > 0 || brief.RoomHeightMM > 0 || slices.ContainsFunc(j.Boxes, isDoor) ||
		slices.ContainsFunc(j.Pieces, func(p job.Piece) bool { return p.UpMM != nil })
	if !asked {
		return p // and draws nothing
	}
	if room := p.Room(0); room != nil {
		p.Notes = append(slices.Clip(p.Notes), roomNotes(room, measure.System(brief.Units))...)
	}
	return p
}

func isDoor(b job.Box) bool { return b.Kind == "door" }

// roomNotes says which pieces the room does not take, and which doors they hang before.
func roomNotes(room *look.Look, units measure.System) (notes []count.Note) {
	warn := func(piece, text string) {
		notes = append(notes, count.Note{Kind: "warning", Piece: piece, Text: text})
	}
	hall, past := room.Hall, 0.0
	for i, item := range room.Items[:len(room.Items)-len(hall.Boxes)] {
		id, over := item.Entity[len("piece/"):], item.TopMM-hall.HeightMM
		if hall.HeightMM > 0 && over > looseMM {
			word := " is "
			if item.TopMM-item.BottomMM <= hall.HeightMM {
				word = " hangs "
			}
			warn(id, item.Name+word+aLength(over, units)+" higher than the room.")
		}
		if item.BottomMM < -looseMM {
			warn(id, item.Name+" is "+aLength(-item.BottomMM, units)+" below the floor.")
		}
		right := item.RightMM - hall.WidthMM
		switch {
		case hall.WidthMM <= 0:
		case item.RightMM-item.LeftMM > hall.WidthMM+looseMM:
			warn(id, item.Name+" is "+aLength(item.RightMM-item.LeftMM-hall.WidthMM, units)+" wider than the room.")
		case item.Itself:
			past = max(past, right)
		case right > looseMM:
			warn(id, item.Name+" reaches "+aLength(right, units)+" past the right wall.")
		case item.LeftMM < -looseMM:
			warn(id, item.Name+" reaches "+aLength(-item.LeftMM, units)+" past the left wall.")
		}
		for k := range hall.Boxes {
			b := &hall.Boxes[k]
			if n := room.Covers(i, look.AreaOf(b)); isDoor(*b) && n > 0 {
				warn(id, item.Name+" hangs before "+b.Name+" with "+phrase.Count(n, "balloon")+
					". Keep ways out and their signs free.")
			}
		}
	}
	if past > looseMM {
		warn("", "Side by side the pieces need "+aLength(past, units)+" more than the room is wide. Place some yourself.")
	}
	return notes
}

// aLength writes a length as a person says it: 30 cm, 1.2 m; 5 in, 4 ft 2 in.
func aLength(mm float64, units measure.System) string {
	if mm < 1000 && units != measure.Imperial || mm < measure.MMPerFoot {
		return measure.FormatSmallLength(mm, units)
	}
	return measure.FormatLength(mm, units)
}
