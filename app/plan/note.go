package plan

import (
	"garlandry/app/plan/count"
	"garlandry/app/plan/rigging"
	"garlandry/app/plan/task"
	"garlandry/app/plan/transport"
)

// noteRules lists what the plan looks out for besides counting. A new one is one file and one line here.
func noteRules() []func(*draft) {
	return []func(*draft){briefNotes, colourNotes, frameNotes, spanNotes, dipNotes, signNotes, heliumNotes, warmthNotes,
		outdoorNotes, allergyNotes, childrenNotes, powerNotes, carNotes, handsNotes}
}

// noteDraft is what notes are written from.
type draft struct {
	*rigging.Rig
	transport transport.Plan
	cards     []task.Card
}

// noteList runs the rules, and gives their notes after those that counting left.
func noteList(rig *rigging.Rig, car transport.Plan, cards []task.Card) []count.Note {
	d := &draft{rig, car, cards}
	for _, rule := range noteRules() {
		rule(d)
	}
	return rig.Notes
}
