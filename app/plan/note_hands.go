package plan

// handsNotes says where the crew is smaller than the work needs, or not named.
func handsNotes(d *noteDraft) {
	if len(d.job.Crew) == 0 && len(d.pieces) > 0 {
		d.inform("", "No crew is named: times are for one practised person.")
	}
	if len(d.site) > 1 {
		return
	}
	for _, c := range d.cards {
		if c.Place == Site && c.HandsMin > 1 {
			d.warn(c.Piece,
				"“"+c.Title+"” needs "+count(c.HandsMin, "person", "people")+" at once, and there is one. Ask somebody in for it.")
			return
		}
	}
}
