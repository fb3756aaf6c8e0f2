package plan

import (
	"garlandry/app/plan/count"
	"garlandry/app/plan/rigging"
)

// signNotes asks for each sign whether anybody can be under it.
func signNotes(d *draft) {
	for _, k := range d.Signs() {
		options := rigging.OverheadOptions()
		d.Note(count.Note{Key: rigging.OverheadKey(k), Kind: "warning", Title: "Anybody under " + k.Name + "?",
			Text: "Can anybody stand, sit or walk under " + k.Name + "? " + d.LineHolds(k), Options: options,
			Picked: d.Picked(rigging.OverheadKey(k), options)})
	}
}
