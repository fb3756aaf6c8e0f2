package plan

// noteRules lists what the plan looks out for besides counting. A new one is one file and one line here.
func noteRules() []func(*noteDraft) {
	return []func(*noteDraft){briefNotes, colourNotes, frameNotes, spanNotes, dipNotes, signNotes, heliumNotes, warmthNotes,
		outdoorNotes, allergyNotes, childrenNotes, powerNotes, carNotes, handsNotes}
}

// noteDraft is what notes are written from.
type noteDraft struct {
	*Rig
	haul  haul
	cards []Card
}

// noteList runs the rules, and gives their notes after those that counting left.
func noteList(rig *Rig, haul haul, cards []Card) []Note {
	d := &noteDraft{rig, haul, cards}
	for _, rule := range noteRules() {
		rule(d)
	}
	return rig.Notes
}
