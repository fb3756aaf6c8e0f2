package plan

import (
	"strconv"

	"garlandry/app/job"
	"garlandry/calc/cluster"
)

// wallKind is rows of base across a width, one above the other.
func wallKind() kind { return kind{job.Wall, (*draft).wall} }

func (d *draft) wall(c *counted) {
	p := c.Piece
	if !(p.HeightMM > 0) || !(p.WidthMM > 0) {
		d.note(Note{Kind: "warning", Piece: p.ID, Text: p.Name + " has no width or height yet, so nothing is counted for it."})
		return
	}
	c.highMM = p.HeightMM
	rows := 0
	share := d.figures.row("wall/row")
	if girth := cluster.GirthMM(p.Recipe, d.push); girth > 0 {
		apart := float64(girth * share.Value)
		rows = max(1, up(p.HeightMM/apart))
		c.line("Rows", d.length(p.HeightMM)+" with a row every "+d.length(apart)+", "+number(100*share.Value)+" % of a row's girth",
			count(rows, "row"), share.Source)
	}
	d.bases(c, p.WidthMM, max(1, rows))
	d.sections(c, p.WidthMM, max(1, rows))
	d.joinTies(c, p.WidthMM, max(1, rows))
	c.lineMM = c.LengthMM
	if len(c.Sections) == rows {
		c.fix = batch{rows, "row", "rows"}
	}
	c.line("Balloons", strconv.Itoa(c.Clusters)+" x "+strconv.Itoa(c.Recipe.Balloons()), count(c.Balloons, "balloon"), arithmetic())
}
