package page

import (
	"slices"
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/pwa/address"
	"garlandry/pwa/view"
)

func pieces(r *request) *Reply {
	r.find("")
	return r.draw("Pieces", view.Pieces(r.frame, r.job, r.plan()))
}

func pieceEntries(j job.Job) []entry {
	var all []entry
	for _, p := range j.Pieces {
		all = append(all, entry{id: p.ID, title: p.Name, order: p.Order})
	}
	return all
}

// movePiece changes the order in which pieces are built.
func movePiece(r *request) *Reply {
	act := r.in.Get(view.FieldAct)
	if act != "up" && act != "down" {
		return r.trouble(view.LabelFailed, view.LabelCannot,
			view.LabelGoBack)
	}
	if _, known := r.job.Piece(r.in.Get("id")); !known {
		return r.trouble(view.LabelRemoved, view.LabelRemovedPiece, view.LabelLookAgain)
	}
	return r.save(moved("piece", pieceEntries(r.job), r.in.Get("id"), act == "up"), r.at(address.Pieces), "Moved.")
}

// copyPiece adds a copy of a piece.
func copyPiece(r *request, p job.Piece) *Reply {
	name := truncate(p.Name+" (copy)", 80)
	entity := "piece/" + r.newID(p.Name)
	changes := r.copied("piece/"+p.ID, entity, "removed", "order", "name", "at_mm")
	changes = append(changes, job.Put(entity, "name", name), job.Put(entity, "order", after(pieceEntries(r.job))))
	id := strings.TrimPrefix(entity, "piece/")
	for i, l := range r.job.LayersOf(p.ID) {
		copied := "layer/" + id + "-" + strconv.Itoa(i+1)
		changes = append(changes, r.copied("layer/"+l.ID, copied, "removed", "piece")...)
		changes = append(changes, job.Put(copied, "piece", id))
	}
	return r.save(changes, r.at(address.Piece, id), "This is the copy.")
}

// copied returns the changes that give an entity what another one has, but for some fields.
func (r *request) copied(from, to string, but ...string) (changes []job.Change) {
	for _, f := range nounOf(to).Fields {
		value := r.job.State.Register(from, f.Name).Value()
		if !slices.Contains(but, f.Name) && len(value) > 0 && f.Check(value) == nil {
			changes = append(changes, job.Change{Kind: job.Set, Entity: to, Field: f.Name, Value: value})
		}
	}
	return changes
}

func removePiece(r *request, p job.Piece) *Reply {
	reply := r.save([]job.Change{job.Put("piece/"+p.ID, "removed", true)}, r.at(address.Pieces), "Removed "+p.Name+".")
	reply.Undo = &view.Action{Act: "restore", Entity: "piece/" + p.ID, Back: r.at(address.Pieces)}
	return reply
}

// truncate shortens a text to at most a number of characters.
func truncate(text string, most int) string {
	if runes := []rune(text); len(runes) > most {
		return string(runes[:most])
	}
	return text
}
