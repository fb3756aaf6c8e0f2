package page

import (
	"strings"

	"garlandry/app/job"
	"garlandry/pwa/address"
	"garlandry/pwa/view"
)

func pieces(a *ask) *Reply { return a.draw("Pieces", view.Pieces(a.frame, a.job, a.plan())) }

func pieceEntries(j job.Job) []entry {
	var all []entry
	for _, p := range j.Pieces {
		all = append(all, entry{id: p.ID, title: p.Name, order: p.Order})
	}
	return all
}

// movePiece changes the order in which pieces are built.
func movePiece(a *ask) *Reply {
	act := a.in.Get(view.FieldAct)
	if act != "up" && act != "down" {
		return a.trouble("That could not be taken", "The form asked for something this page does not do.",
			"Go back and use the buttons there.")
	}
	if _, known := a.job.Piece(a.in.Get("id")); !known {
		return a.trouble("Not here any more", "Somebody may have removed the piece meanwhile.", "Look at the list again.")
	}
	return a.wrote(moved("piece", pieceEntries(a.job), a.in.Get("id"), act == "up"), a.at(address.Pieces), "Moved.")
}

// copyPiece adds another piece just like one.
func copyPiece(a *ask, p job.Piece) *Reply {
	name := cut(p.Name+" (copy)", 80)
	entity := "piece/" + a.newID(p.Name)
	var changes []job.Change
	for _, f := range nounOf(entity).Fields {
		value := a.job.State.Register("piece/"+p.ID, f.Name).Value()
		if f.Name == "removed" || f.Name == "order" || f.Name == "name" || len(value) == 0 || f.Check(value) != nil {
			continue
		}
		changes = append(changes, job.Change{Kind: job.Set, Entity: entity, Field: f.Name, Value: value})
	}
	changes = append(changes, job.Put(entity, "name", name), job.Put(entity, "order", after(pieceEntries(a.job))))
	return a.wrote(changes, a.at(address.Piece, strings.TrimPrefix(entity, "piece/")), "This is the copy.")
}

func removePiece(a *ask, p job.Piece) *Reply {
	reply := a.wrote([]job.Change{job.Put("piece/"+p.ID, "removed", true)}, a.at(address.Pieces), "Removed "+p.Name+".")
	reply.Undo = &view.Deed{Act: "restore", Entity: "piece/" + p.ID, Back: a.at(address.Pieces)}
	return reply
}

// cut shortens a text to so many characters.
func cut(text string, most int) string {
	if runes := []rune(text); len(runes) > most {
		return string(runes[:most])
	}
	return text
}
