package plan

import (
	"garlandry/app/job"
	"garlandry/calc/outline"
)

// hoopKind is a garland on part of a ring.
var hoopKind = kind{job.Hoop, (*draft).hoop}

func (d *draft) hoop(c *counted) {
	p := c.Piece
	c.highMM = p.DiameterMM
	d.along(c, outline.Shape{Kind: outline.Hoop, DiameterMM: p.DiameterMM, Part: p.PartPct / 100},
		number(p.PartPct)+" % of a hoop "+d.length(p.DiameterMM)+" across")
}
