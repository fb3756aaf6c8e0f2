package task

// signRule adds the cards for hanging signs and letters. They take two people and a ladder.
var signRule = rule{family: FamilySign, place: Site, noun: "kit", title: "Hang ", cards: func(d *draft, r *rule) {
	for _, k := range d.Hanging {
		if !k.Sign {
			continue
		}
		c := r.card(d, k.ID, k.Name)
		c.Steps = []string{
			"Two of you: one on the ladder, one holding the ladder and the sign.",
			"Hang it from two points or more, on strong fishing line or thin wire. Tie it to the frame, never to balloons.",
			d.LineHolds(*k.Kit),
			"Check from the door that it is level. If it lights up, hide the cable and tape it down.",
		}
		c.takes(d.together(Site, "sign", float64(k.Count)))
		d.hands(c, d.pair(), d.pair())
		c.After = append([]Ref{FamilyUnload.Only(), FamilyLook.Only()}, d.frameCards(k)...)
		for _, p := range d.Pieces {
			if p.Piece.Frame != "" && k.May(p.Piece.Frame) {
				c.After = append(c.After, dressed(p)...)
			}
		}
		c.care(ladder, overhead)
	}
}}
