package count

import (
	"garlandry/app/job"
	"garlandry/app/plan/phrase"
	"garlandry/calc/outline"
)

// hoop is a garland on part of a ring.
func init() {
	register(Kind{
		Name:     "hoop",
		Teach:    "A garland on part of a round frame.",
		Measures: []string{"diameter_mm", "part_pct", "part_at"},
		Needed:   []string{"diameter_mm", "part_pct"},
		Build:    []string{"frame", "recipe", "colours", "pattern"},
		More: []string{"bases", "mixes", "accents", "accent_cover_pct", "accent_recipe", "accent_colours", "accent_tie",
			"priority", "built", "ahead", "notes"},
		Begin: Begin{Name: "Hoop garland"},
		Starts: []Start{{Key: "hoop", Picture: hoopPicture,
			Label: "Hoop", Ask: "how wide", One: "hoop garland", Metric: "2 m",
			Imperial: "6 ft", Fields: []string{"diameter_mm"}}},
		Answers: []Answer{
			{Calculator: "outline", Field: "diameter_mm", Label: "diameter", From: "diameter", Typed: true, Shape: "h"},
		},
		Form:             Strung,
		Count:            (*Draft).hoop,
		AccentsBySpacing: true,
		NoTopBar:         true,
		Work:             "shape",
		PutUp:            fixHoop,
		Line:             func(p job.Piece) (outline.Shape, bool) { return HoopLine(p), true },
	})
}

// fixHoop puts up a hoop garland: as a base, its middle where the piece says.
func fixHoop(d *Draft, c *Counted) PutUp {
	up := fixBase(d, c)
	if c.Piece.PartPct < 100 {
		where := "on the " + c.Piece.PartAt
		if c.Piece.PartAt == "top" || c.Piece.PartAt == "bottom" {
			where = "at the " + c.Piece.PartAt
		}
		up.Steps[0] += " The middle of the garland goes " + where + " of the hoop, seen from the front."
	}
	return up
}

func (d *Draft) hoop(c *Counted) {
	p := c.Piece
	c.HighMM = p.DiameterMM
	d.along(c, HoopLine(p), phrase.Number(p.PartPct)+" % of a hoop "+d.Length(p.DiameterMM)+" across")
}

// HoopLine returns the line of a hoop garland. Seen from the front, the middle of its balloons lies where the piece
// says.
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

// hoopPicture was drawn by hand.
var hoopPicture = Picture{"M36 4a20 20 0 1 0 .1 0", []float64{
	36, 5, 4.5, 27, 7, 5.5, 20, 13, 5, 16, 21, 6, 18, 30, 5.5, 24, 38, 5, 32, 43, 5.5, 40, 43, 4.5, 23, 17, 3, 24,
	31, 3,
}}
