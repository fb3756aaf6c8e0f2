package plan

import (
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
	asked := brief.RoomWidthMM > 0 || brief.RoomHeightMM > 0 || len(j.Boxes) > 0
	for i := range j.Pieces {
		asked = asked || j.Pieces[i].UpMM != nil
	}
	if !asked {
		return p // and draws nothing
	}
	if room := p.Room(0); room != nil {
		p.roomNotes = roomNotes(room, measure.System(brief.Units))
		p.Notes = append(p.Notes[:len(p.Notes):len(p.Notes)], p.roomNotes...)
	}
	return p
}

// roomNotes says which pieces do not fit into the room, and which hang in front of a door.
func roomNotes(room *look.Look, units measure.System) (notes []count.Note) {
	piece := ""
	say := func(before string, mm float64, after string) bool {
		if mm <= looseMM {
			return false
		}
		length := measure.FormatLength(mm, units)
		if mm < 1000 && units != measure.Imperial || mm < measure.MMPerFoot { // 30 cm, not 0.3 m
			length = measure.FormatSmallLength(mm, units)
		}
		notes = append(notes, count.Note{Kind: "warning", Piece: piece, Text: before + length + after})
		return true
	}
	hall, past := room.Hall, 0.0
	for i := range room.Items[:len(room.Items)-len(hall.Boxes)] {
		item := &room.Items[i]
		piece = item.Entity[len("piece/"):]
		if hall.HeightMM > 0 && !say(item.Name+" is ", item.TopMM-item.BottomMM-hall.HeightMM, " higher than the room.") {
			say(item.Name+" hangs ", item.TopMM-hall.HeightMM, " too high for the room.")
		}
		say(item.Name+" is ", -item.BottomMM, " below the floor.")
		switch {
		case hall.WidthMM <= 0 || say(item.Name+" is ", item.RightMM-item.LeftMM-hall.WidthMM, " wider than the room."):
		case item.Itself:
			past = max(past, item.RightMM-hall.WidthMM)
		default:
			say(item.Name+" reaches ", item.RightMM-hall.WidthMM, " past the right wall.")
			say(item.Name+" reaches ", -item.LeftMM, " past the left wall.")
		}
		for k := range hall.Boxes {
			b := &hall.Boxes[k]
			if n := room.Covers(i, look.AreaOf(b)); b.Kind == "door" && n > 0 {
				notes = append(notes, count.Note{Kind: "warning", Piece: piece, Text: item.Name + " hangs in front of " + b.Name +
					" with " + phrase.Count(n, "balloon") + ". Keep exits and exit signs clear."})
			}
		}
	}
	piece = ""
	say("Side by side, the pieces are ", past, " wider than the room. Place some yourself.")
	return notes
}
