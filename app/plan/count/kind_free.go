package count

import (
	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
)

// freeKind is a piece whose balloons are typed by hand.
var freeKind = kind{job.Free, (*Draft).free}

func (d *Draft) free(c *Counted) {
	for _, typed := range c.Piece.Counts {
		d.typed(c, typed, 1)
	}
	c.line("Balloons", "as typed", phrase.Count(c.Balloons, "balloon"), figures.Source{Text: "your own count", Mark: figures.Measured})
	if c.Balloons == 0 {
		d.Inform(c.Piece.ID, c.Piece.Name+": no balloons typed yet.")
		return
	}
	tie := d.Figures.Row("ties/free")
	c.Ties += figures.RoundUp(float64(float64(c.Balloons) * tie.Value))
	c.line("Ties", phrase.Count(c.Balloons, "balloon")+" x "+phrase.Number(tie.Value), phrase.Count(c.Ties, "tie"), tie.Source)
	c.Make = Batch{c.Balloons, "balloon", "balloons"}
	c.Fix = Batch{1, "piece", "pieces"}
}

// typed adds one row of typed counts, so many times over.
func (d *Draft) typed(c *Counted, typed job.TypedCount, times int) {
	n := max(0, typed.Count) * max(0, times)
	if n == 0 {
		return
	}
	colour, known := d.Job.Colour(typed.Colour)
	if !known {
		colour = Undecided()
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
