package count

import (
	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/calc/measure"
	"garlandry/calc/outline"
)

// garlandKind is a base along a line: a typed length, an arc or an arch.
var garlandKind = kind{job.Garland, (*Draft).garland}

func (d *Draft) garland(c *Counted) {
	p := c.Piece
	shape, how := outline.Shape{Kind: outline.Line, LengthMM: p.LengthMM}, "a length you know"
	c.HighMM = 0
	switch p.Line {
	case "arc":
		shape = outline.Shape{Kind: outline.Arc, WidthMM: p.WidthMM, HeightMM: p.HeightMM}
		how = "an arc " + d.Length(p.WidthMM) + " wide and " + d.Length(p.HeightMM) + " high"
		c.HighMM = p.HeightMM
	case "arch":
		shape = outline.Shape{Kind: outline.Arch, WidthMM: p.WidthMM, HeightMM: p.HeightMM}
		how = "an arch " + d.Length(p.WidthMM) + " wide and " + d.Length(p.HeightMM) + " high, legs and a round top"
		c.HighMM = p.HeightMM
	}
	d.along(c, shape, how)
}

// along counts a base that follows a line.
func (d *Draft) along(c *Counted, shape outline.Shape, how string) {
	lengthMM, err := outline.Length(shape)
	if err != nil {
		d.Warn(c.Piece.ID,
			c.Piece.Name+": it has no length yet, so nothing is counted ("+measure.Reword(err.Error(), d.Units)+").")
		return
	}
	if frame, known := d.Job.KitItem(c.Piece.Frame); known && c.Piece.Frame != "" {
		c.HighMM = max(c.HighMM, frame.HeightMM)
	}
	c.line("Length", how, d.Length(lengthMM), figures.Source{Text: "geometry of the line", Mark: figures.Published})
	d.bases(c, lengthMM, 1, false)
	d.sections(c, lengthMM, 1)
	d.joinTies(c, lengthMM, 1)
	c.LineMM = c.LengthMM
}
