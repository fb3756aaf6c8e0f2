package count

import (
	"garlandry/app/job"
	"garlandry/app/plan/phrase"
	"garlandry/calc/outline"
)

// hoopKind is a garland on part of a ring.
var hoopKind = kind{job.Hoop, (*Draft).hoop}

func (d *Draft) hoop(c *Counted) {
	p := c.Piece
	c.HighMM = p.DiameterMM
	d.along(c, HoopLine(p), phrase.Number(p.PartPct)+" % of a hoop "+d.Length(p.DiameterMM)+" across")
}

// HoopLine gives the line of a hoop garland, turned so that the middle of the part that carries balloons lies where the
// piece says, seen from the front.
func HoopLine(p job.Piece) outline.Shape {
	part := p.PartPct / 100
	middle := 90.0 // degrees clockwise from the lowest point
	switch p.PartAt {
	case "top":
		middle = 180
	case "right":
		middle = 270
	case "bottom":
		middle = 0
	}
	return outline.Shape{Kind: outline.Hoop, DiameterMM: p.DiameterMM, Part: part, StartDeg: middle - float64(180*part)}
}
