package plan

import "garlandry/app/job"

// freeKind is a piece whose balloons are typed by hand.
var freeKind = kind{job.Free, (*Draft).free}

func (d *Draft) free(c *counted) {
	for _, typed := range c.Piece.Counts {
		d.typed(c, typed, 1)
	}
	c.line("Balloons", "as typed", count(c.Balloons, "balloon"), Source{Text: "your own count", Mark: Measured})
	if c.Balloons == 0 {
		d.inform(c.Piece.ID, c.Piece.Name+": no balloons typed yet.")
		return
	}
	tie := d.figures.row("ties/free")
	c.Ties += up(float64(float64(c.Balloons) * tie.Value))
	c.line("Ties", count(c.Balloons, "balloon")+" x "+number(tie.Value), count(c.Ties, "tie"), tie.Source)
	c.make = batch{c.Balloons, "balloon", "balloons"}
	c.fix = batch{1, "piece", "pieces"}
}

// typed adds one row of typed counts, so many times over.
func (d *Draft) typed(c *counted, typed job.TypedCount, times int) {
	n := max(0, typed.Count) * max(0, times)
	if n == 0 {
		return
	}
	colour, known := d.job.Colour(typed.Colour)
	if !known {
		colour = undecided()
	}
	toIn := typed.ToIn
	if !(toIn > 0) {
		toIn = decorToIn(typed.SizeIn)
	}
	sizeIn := typed.SizeIn
	if known && !colour.Has(sizeIn) {
		if pick, near := d.decideSingle(c, colour, sizeIn, false); pick == pickStandIn {
			sizeIn, toIn = near, decorToIn(near)
		}
	}
	c.add(sizeIn, toIn, colour, n)
	c.addDuplets(times*(max(0, typed.Count)/2), sizeIn, toIn, false)
}
