package count

import (
	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/calc/latex"
)

// free is a piece whose balloons are typed by hand.
func init() {
	register(Kind{
		Name:     "free",
		Picture:  freePicture,
		Teach:    "Anything else. You type how many balloons.",
		Measures: []string{"counts"},
		More:     []string{"priority", "built", "ahead", "notes"},
		Begin:    Begin{Name: "Piece"},
		Count:    (*Draft).free,
		Work:     "fix",
		PutUp: func(_ *Draft, c *Counted) PutUp {
			return PutUp{
				Steps: []string{"Put it up as the brief says.", "Tie to frames and rails, never to balloons. Hide the ties."},
				Row:   "fix-cluster", Times: float64(c.Balloons) / 4, Most: Around}
		},
	})
}

func (d *Draft) free(c *Counted) {
	for _, typed := range c.Piece.Counts {
		d.typed(c, typed, 1)
	}
	c.line("Balloons", "as typed", phrase.Count(c.Balloons, "balloon"),
		figures.Source{Text: "your own count", Mark: figures.Measured})
	if c.Balloons == 0 {
		d.Inform(c.Piece.ID, c.Piece.Name+": no balloons typed yet.")
		return
	}
	tie := d.Figures.Row("ties/free")
	c.Ties += figures.RoundUp(float64(float64(c.Balloons) * tie.Value))
	c.line("Ties", phrase.Count(c.Balloons, "balloon")+" x "+phrase.Number(tie.Value), phrase.Count(c.Ties, "tie"),
		tie.Source)
	c.layBunches(c.Balloons, 1)
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
	toIn := orUsual(typed.ToIn, typed.SizeIn)
	sizeIn := typed.SizeIn
	if known && !colour.Has(sizeIn) {
		if pick, near := d.decideSingle(c, colour, sizeIn, false); pick == pickSubstitute {
			sizeIn, toIn = near, latex.UsualIn(near)
		}
	}
	c.add(sizeIn, toIn, colour, n)
	c.addDuplets(times*(max(0, typed.Count)/2), sizeIn, toIn, nil)
}

// freePicture was drawn by hand.
var freePicture = Picture{"", []float64{
	25, 27, 12, 44, 31, 8, 42, 15, 6, 55, 24, 4, 14, 38, 4, 32, 43, 3,
}}
