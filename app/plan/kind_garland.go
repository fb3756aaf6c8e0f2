package plan

import (
	"garlandry/app/job"
	"garlandry/calc/measure"
	"garlandry/calc/outline"
)

// garlandKind is a base along a line: a typed length, an arc or an arch.
var garlandKind = kind{job.Garland, (*Draft).garland}

func (d *Draft) garland(c *counted) {
	p := c.Piece
	shape, how := outline.Shape{Kind: outline.Line, LengthMM: p.LengthMM}, "a length you know"
	c.highMM = 0
	switch p.Line {
	case "arc":
		shape = outline.Shape{Kind: outline.Arc, WidthMM: p.WidthMM, HeightMM: p.HeightMM}
		how = "an arc " + d.length(p.WidthMM) + " wide and " + d.length(p.HeightMM) + " high"
		c.highMM = p.HeightMM
	case "arch":
		shape = outline.Shape{Kind: outline.Arch, WidthMM: p.WidthMM, HeightMM: p.HeightMM}
		how = "an arch " + d.length(p.WidthMM) + " wide and " + d.length(p.HeightMM) + " high, legs and a round top"
		c.highMM = p.HeightMM
	}
	d.along(c, shape, how)
}

// along counts a base that follows a line.
func (d *Draft) along(c *counted, shape outline.Shape, how string) {
	lengthMM, err := outline.Length(shape)
	if err != nil {
		d.warn(c.Piece.ID,
			c.Piece.Name+": it has no length yet, so nothing is counted ("+measure.Reword(err.Error(), d.units)+").")
		return
	}
	if frame, known := d.job.KitItem(c.Piece.Frame); known && c.Piece.Frame != "" {
		c.highMM = max(c.highMM, frame.HeightMM)
	}
	c.line("Length", how, d.length(lengthMM), Source{Text: "geometry of the line", Mark: Published})
	d.bases(c, lengthMM, 1, false)
	d.sections(c, lengthMM, 1)
	d.joinTies(c, lengthMM, 1)
	c.lineMM = c.LengthMM
}
