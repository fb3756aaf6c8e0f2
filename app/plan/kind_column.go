package plan

import "garlandry/app/job"

// columnKind is clusters wound round an upright pole, each turned against the next; any number of equal ones.
var columnKind = kind{job.Column, (*Draft).column}

func (d *Draft) column(c *counted) {
	p := c.Piece
	columns := max(1, p.Count)
	if !(p.HeightMM > 0) {
		d.warn(p.ID, p.Name+": no height yet, so nothing is counted.")
		return
	}
	c.highMM = p.HeightMM
	d.bases(c, p.HeightMM, columns, true)
	c.lineMM = c.LengthMM
	tie := d.figures.row("ties/column")
	ties := up(float64(float64(columns) * tie.Value))
	c.line("Ties", count(columns, "column")+" x "+number(tie.Value), count(ties, "tie"), tie.Source)
	if c.Clusters > 0 {
		c.Ties += ties
		c.fix = batch{columns, "column", "columns"}
	}
}
