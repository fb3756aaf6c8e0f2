package plan

import (
	"garlandry/app/plan/count"
	"garlandry/app/plan/rigging"
	"garlandry/app/plan/task"
	"garlandry/app/plan/transport"
)

// noteRules lists the rules that add notes. A new rule is one file and one line here.
func noteRules() []func(*draft) {
	return []func(*draft){outdoorNotes, briefNotes, colourNotes, alikeNotes, frameNotes, spanNotes, dipNotes, signNotes,
		heliumNotes, warmthNotes, allergyNotes, childrenNotes, powerNotes, carNotes, builtNotes, handsNotes}
}

// draft is the input of the note rules.
type draft struct {
	*rigging.Rig
	transport transport.Plan
	cards     []task.Card
}

// noteList runs the rules and returns their notes after those from counting.
func noteList(rig *rigging.Rig, car transport.Plan, cards []task.Card) []count.Note {
	d := &draft{rig, car, cards}
	for _, rule := range noteRules() {
		rule(d)
	}
	return rig.Notes
}
