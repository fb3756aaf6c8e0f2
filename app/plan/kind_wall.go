package plan

import (
	"garlandry/app/job"
	"garlandry/calc/cluster"
)

// wallKind is upright bases side by side across a width, nested into each other as in the wall calculator.
var wallKind = kind{job.Wall, (*Draft).wall}

func (d *Draft) wall(c *counted) {
	p := c.Piece
	if !(p.HeightMM > 0) || !(p.WidthMM > 0) {
		d.warn(p.ID, p.Name+": no width or height yet, so nothing is counted.")
		return
	}
	c.highMM = p.HeightMM
	columns := 1
	if p.Recipe.Duplets() > 0 {
		columns = d.wallColumns(c)
	}
	d.bases(c, p.HeightMM, columns, true)
	d.sections(c, p.HeightMM, columns)
	d.joinTies(c, p.HeightMM, columns)
	c.lineMM = c.LengthMM
	if len(c.Sections) == columns {
		c.fix = batch{columns, "string", "strings"}
	}
}

// wallColumns is how many upright bases stand side by side: the first is as wide as its girth, every further one adds
// the girth less what neighbours reach into each other, or what its balloons need (see [cluster.SideBySideMM]).
func (d *Draft) wallColumns(c *counted) int {
	nest := d.figures.row("wall/nest")
	girth := cluster.GirthMM(c.Piece.Recipe, d.push)
	apart, _ := cluster.SideBySideMM(c.Piece.Recipe, d.push, nest.Value)
	columns := max(1, layersFor(c.Piece.WidthMM, apart, girth))
	c.line(
		"Strings side by side",
		"the first is "+d.smallMM(girth)+" wide, each further one adds "+d.smallMM(
			apart,
		)+", up to "+d.length(c.Piece.WidthMM),
		count(columns, "string"),
		nest.Source,
	)
	return columns
}
