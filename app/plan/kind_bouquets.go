package plan

import (
	"strconv"

	"garlandry/app/job"
)

// bouquetsKind is so many bunches of so many balloons, with air or helium. With balloons typed by size and colour, one
// bouquet is made of these instead.
var bouquetsKind = kind{job.Bouquets, (*Draft).bouquets}

func (d *Draft) bouquets(c *counted) {
	p := c.Piece
	d.bunches(c, "bouquet", "bouquets")
	if c.helium = p.Gas == "helium"; c.helium {
		c.Duplets, c.parts = 0, nil
		c.where = Site
	}
}

// bunches counts equal small pieces of single-size balloons, tied in duplets.
func (d *Draft) bunches(c *counted, one, many string) {
	p := c.Piece
	n, each := max(0, p.Count), max(0, p.Each)
	if len(p.Counts) > 0 {
		each = 0
		for _, typed := range p.Counts {
			d.typed(c, typed, n)
			each += max(0, typed.Count)
		}
		c.line("Balloons", count(n, one, many)+" of "+strconv.Itoa(each)+" as typed", count(c.Balloons, "balloon"),
			arithmetic())
	} else {
		toIn := d.sizedTo(p)
		d.one(c, p.SizeIn, toIn, n*each)
		c.line("Balloons", count(n, one, many)+" x "+strconv.Itoa(each), count(c.Balloons, "balloon"), arithmetic())
		c.addDuplets(n*(each/2), p.SizeIn, toIn, false)
	}
	if c.Balloons == 0 {
		return
	}
	if p.Gas != "helium" {
		tie := d.figures.row("ties/table")
		ties := up(float64(float64(n) * tie.Value))
		c.Ties += ties
		c.line("Ties", count(n, one, many)+" x "+number(tie.Value), count(ties, "tie"), tie.Source)
	}
	c.make = batch{n, one, many}
	c.fix = batch{n, one, many}
}
