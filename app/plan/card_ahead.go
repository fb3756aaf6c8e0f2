package plan

import "strconv"

// aheadRule is making some of a piece at home that is built on site: they come along loose, and the card that makes the
// rest counts so many fewer.
var aheadRule = cardRule{
	family: "ahead",
	place:  Home,
	noun:   "piece",
	title:  "Make ahead for ",
	cards: func(d *cardDraft, r *cardRule) {
		for _, p := range d.pieces {
			if p.ahead > 0 {
				c := r.pieceCard(d, p)
				c.counts(batch{p.ahead, p.make.one, p.make.many})
				c.Title = "Make " + count(p.ahead, p.make.one, p.make.many) + " ahead for " + p.Piece.Name
				d.makes(c, p, p.ahead)
			}
		}
	},
}

// makes fills in a card that makes so many of what a piece is made of.
func (d *cardDraft) makes(c *Card, p *counted, n int) {
	c.Steps = d.makeSteps(p)
	if p.ahead > 0 {
		c.Steps = append(
			[]string{"This card is for " + strconv.Itoa(n) + " of " + count(p.make.count, p.make.one, p.make.many) + "."},
			c.Steps...)
	}
	c.Working = append(c.Working, p.Working...)
	c.takes(d.makeEffort(p, c.Place, float64(n)/float64(p.make.count)))
	d.hands(c, 1, d.most())
	c.After = ready(c.Place)
	if p.helium {
		c.care(helium, release, choking)
	} else {
		c.care(choking, eyes)
	}
	if c.Place == Home {
		last := len(c.Steps) - 1
		c.Steps = append(c.Steps[:last:last], "Put them into a big clear bag labelled “"+p.Piece.Name+"”.", c.Steps[last])
	}
}
