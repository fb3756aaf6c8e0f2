package plan

// signNotes asks of each sign whether anybody can be under it.
func signNotes(d *noteDraft) {
	for _, k := range d.signs() {
		options := overheadOptions()
		d.note(
			Note{Key: overheadKey(k), Kind: "warning",
				Text: "Say whether anybody can stand, sit or walk under " + k.Name + ". " + d.lineHolds(k), Options: options,
				Picked: d.picked(overheadKey(k), options)},
		)
	}
}
