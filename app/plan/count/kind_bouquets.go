package count

import (
	"strconv"

	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
)

// bouquets are equal bunches of balloons, with air or helium. Balloons typed by size and colour make up one bouquet.
func init() {
	register(Kind{
		Name:     "bouquets",
		Teach:    "Balloons on ribbons from a weight.",
		Measures: []string{"count", "each", "size_in", "to_in", "gas"},
		Needed:   []string{"count", "each", "size_in"},
		Build:    []string{"colours"},
		More:     []string{"counts", "priority", "built", "ahead", "notes"},
		Begin:    Begin{Name: "Bouquets", Gas: "helium"},
		Starts: []Start{{Key: "bouquets", Picture: bouquetsPicture,
			Label: "Bouquets", Ask: "how many", One: "bouquet", Many: "bouquets",
			Metric: "4", Imperial: "4", Fields: []string{"count"}, Most: 500}},
		Form:  Bunched,
		Count: (*Draft).bouquets,
		Work:  "set-out",
		PutUp: setOut,
	})
}

func (d *Draft) bouquets(c *Counted) {
	p := c.Piece
	d.bunches(c, "bouquet", "bouquets")
	if c.Helium = p.Gas == "helium"; c.Helium {
		c.Duplets, c.Parts = 0, nil
		c.OnSite = true
	}
}

// bunches counts equal small pieces of single-size balloons, tied in duplets.
func (d *Draft) bunches(c *Counted, one, many string) {
	p := c.Piece
	n, each := max(0, p.Count), max(0, p.Each)
	if len(p.Counts) > 0 {
		each = 0
		for _, typed := range p.Counts {
			d.typed(c, typed, n)
			each += max(0, typed.Count)
		}
		c.line("Balloons", phrase.Count(n, one, many)+" of "+strconv.Itoa(each)+" as typed",
			phrase.Count(c.Balloons, "balloon"), figures.Arithmetic())
	} else {
		toIn := d.sizedTo(p)
		d.one(c, p.SizeIn, toIn, n*each)
		c.line("Balloons", phrase.Count(n, one, many)+" x "+strconv.Itoa(each), phrase.Count(c.Balloons, "balloon"),
			figures.Arithmetic())
		c.addDuplets(n*(each/2), p.SizeIn, toIn, nil)
	}
	if c.Balloons == 0 {
		return
	}
	if p.Gas != "helium" {
		tie := d.Figures.Row("ties/table")
		ties := figures.RoundUp(float64(float64(n) * tie.Value))
		c.Ties += ties
		c.line("Ties", phrase.Count(n, one, many)+" x "+phrase.Number(tie.Value), phrase.Count(ties, "tie"), tie.Source)
	}
	c.layBunches(n, each)
	c.Make = Batch{n, one, many}
	c.Fix = Batch{n, one, many}
}

// bouquetsPicture was drawn by hand.
var bouquetsPicture = Picture{"M36 44 26 20M36 44 36 14M36 44 46 20M36 44 31 26M36 44 41 26M32 45h8", []float64{
	26, 16, 6, 46, 16, 6, 31, 24, 5, 42, 24, 5, 36, 9, 6.5,
}}
