package task

import "strings"

// tidyRule adds the card for the last look before the doors open.
var tidyRule = rule{
	family: FamilyTidy,
	place:  Site,
	title:  "Hide ties, sweep, look from the door",
	cards: func(d *draft, r *rule) {
		if len(d.Pieces) == 0 {
			return
		}
		c := r.card(d, "", "")
		c.Steps = []string{"Tuck every tie and cable out of sight. Tape down cables where people walk.",
			"Pick up every burst piece. Sweep the floor. Carry bags and boxes out.",
			"Look from the door and check the exits again. Take a photo."}
		c.takes(d.effort(Site, "tidy", 1))
		d.hands(c, 1, d.most())
		c.After = d.last(Site)
		c.care(choking, exits)
		if strings.TrimSpace(d.Job.Brief.Allergy) != "" && d.AnyBalloon() {
			c.Steps = append(c.Steps, "Hang the notice at the door: the décor is natural rubber latex.")
			c.care(allergy)
		}
	},
}
