package count

import (
	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
)

// columnKind is clusters wound round an upright pole, each turned against the next; any number of equal ones.
var columnKind = kind{job.Column, (*Draft).column}

func (d *Draft) column(c *Counted) {
	p := c.Piece
	columns := max(1, p.Count)
	if !(p.HeightMM > 0) {
		d.Warn(p.ID, p.Name+": no height yet, so nothing is counted.")
		return
	}
	c.HighMM = p.HeightMM
	d.bases(c, p.HeightMM, columns, true)
	c.LineMM = c.LengthMM
	tie := d.Figures.Row("ties/column")
	ties := figures.RoundUp(float64(float64(columns) * tie.Value))
	c.line("Ties", phrase.Count(columns, "column")+" x "+phrase.Number(tie.Value), phrase.Count(ties, "tie"), tie.Source)
	if c.Clusters > 0 {
		c.Ties += ties
		c.Fix = Batch{columns, "column", "columns"}
	}
}
