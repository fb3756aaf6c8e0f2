package task

import (
	"strconv"

	"garlandry/app/plan/count"
	"garlandry/app/plan/phrase"
)

// aheadRule adds the cards for making some clusters at home for a piece that is built on site. The card for the rest
// counts that many fewer.
var aheadRule = rule{
	family: FamilyAhead,
	place:  Home,
	noun:   "piece",
	title:  "Make ahead for ",
	cards: func(d *draft, r *rule) {
		for _, p := range d.Pieces {
			if p.Ahead > 0 {
				c := r.pieceCard(d, p)
				c.counts(count.Batch{Count: p.Ahead, One: p.Make.One, Many: p.Make.Many})
				c.Title = "Make " + phrase.Count(p.Ahead, p.Make.One, p.Make.Many) + " ahead for " + p.Piece.Name
				d.makes(c, p, p.Ahead)
			}
		}
	},
}

// makes fills in a card that makes n of a piece's clusters, duplets or bouquets.
func (d *draft) makes(c *Card, p *count.Counted, n int) {
	c.Steps = d.makeSteps(p)
	if p.Ahead > 0 {
		c.Steps = append(
			[]string{"This card covers " + strconv.Itoa(n) + " of " + phrase.Count(p.Make.Count, p.Make.One, p.Make.Many) + "."},
			c.Steps...)
	}
	c.Working = append(c.Working, p.Working...)
	c.takes(d.makeEffort(p, c.Place, float64(n)/float64(p.Make.Count)))
	d.hands(c, 1, d.most())
	c.After = ready(c.Place)
	if p.Helium {
		c.care(helium, release, choking)
	} else {
		c.care(choking, eyes)
	}
	if c.Place == Home {
		last := len(c.Steps) - 1
		c.Steps = append(c.Steps[:last:last], "Put them into a big clear bag labelled “"+p.Piece.Name+"”.", c.Steps[last])
	}
}
