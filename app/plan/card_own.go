package plan

// ownCardRule is the cards the user wrote.
var ownCardRule = cardRule{family: "added", place: Site, noun: "added", title: "", cards: func(d *cardDraft, r *cardRule) {
	for _, a := range d.job.Added {
		place := Place(a.List)
		if place != Home && place != Load && place != Site && place != TakeDown {
			continue
		}
		c := r.card(d, a.ID, a.Text)
		c.Place = place
		if a.Count > 1 {
			c.Count = a.Count
		}
		c.HandsMin, c.HandsMax = max(1, a.Hands), max(1, a.Hands)
		c.Minutes = float64(max(0, a.Minutes) * float64(c.HandsMin))
		c.MinutesBy = sameFor(c.Minutes)
	}
}}
