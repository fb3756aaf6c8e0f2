package plan

import "strings"

// tidyRule is the last look before the doors.
func tidyRule() cardRule {
	r := cardRule{family: "tidy", place: Site, title: always("Hide ties, sweep, look from the door")}
	r.cards = func(d *draft) []Card {
		if len(d.pieces) == 0 {
			return nil
		}
		c := r.card("", "")
		c.Steps = []string{
			"Tuck every tie and cable out of sight; tape cables where people walk.",
			"Pick up every burst piece, sweep the floor, carry bags and boxes out.",
			"Look from the door, and check the ways out once more. Take a photo.",
		}
		c.takes(d.effort(Site, "tidy", 1))
		d.hands(&c, 1, d.most())
		c.After = d.lastKeys(Site)
		c.Cautions = []Caution{choking(), exits()}
		if strings.TrimSpace(d.job.Brief.Allergy) != "" && d.anyBalloon() {
			c.Steps = append(c.Steps, "Hang the notice at the door: the décor is natural rubber latex.")
			c.Cautions = append(c.Cautions, allergy())
		}
		return []Card{c}
	}
	return r
}
