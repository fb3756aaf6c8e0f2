package plan

// noteRules lists what the plan looks out for besides counting. A new one is one file and one line here.
func noteRules() []func(*draft) {
	return []func(*draft){briefNotes, colourNotes, frameNotes, spanNotes, dipNotes, signNotes, heliumNotes, warmthNotes,
		outdoorNotes, allergyNotes, childrenNotes, powerNotes, carNotes, handsNotes}
}

func (d *draft) noteList() {
	for _, rule := range noteRules() {
		rule(d)
	}
}
