package plan

// ownCardRule is the cards the user wrote.
func ownCardRule() cardRule {
	r := cardRule{family: "added", place: Site, noun: "added", title: of("")}
	r.cards = func(d *draft) []Card {
		var cards []Card
		for _, a := range d.job.Added {
			place := Place(a.List)
			if place != Home && place != Load && place != Site && place != TakeDown {
				continue
			}
			c := r.card(a.ID, a.Text)
			c.Place = place
			if a.Count > 1 {
				c.Count = a.Count
			}
			c.HandsMin, c.HandsMax = max(1, a.Hands), max(1, a.Hands)
			c.Minutes = float64(max(0, a.Minutes) * float64(c.HandsMin))
			c.MinutesBy = sameFor(c.Minutes)
			cards = append(cards, c)
		}
		return cards
	}
	return r
}
