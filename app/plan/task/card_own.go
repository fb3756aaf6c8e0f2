package task

// ownRule adds the user's own cards.
var ownRule = rule{family: FamilyAdded, place: Site, noun: "added", title: "", cards: func(d *draft, r *rule) {
	for _, a := range d.Job.Added {
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
