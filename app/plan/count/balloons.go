package count

import (
	"cmp"

	"garlandry/app/job"
	"garlandry/calc/stable"
	"garlandry/calc/stock"
)

// gather sorts the pieces' balloons into lines to buy, with spares.
func (d *Draft) gather() {
	at := map[string]int{}
	for _, c := range d.Pieces {
		d.Ties += c.Ties
		for _, b := range c.By {
			key := job.LatexKey(b.SizeIn, b.Colour.ID)
			i, known := at[key]
			if !known {
				i = len(d.Balloons)
				at[key] = i
				d.Balloons = append(d.Balloons, BalloonLine{Key: key, SizeIn: b.SizeIn, Colour: b.Colour})
			}
			line := &d.Balloons[i]
			line.Need += b.Count
			line.Pieces = append(line.Pieces, PieceShare{c.Piece, b.ToIn, b.Count})
		}
	}
	for i := range d.Balloons {
		line := &d.Balloons[i]
		line.Buy = d.WithSpares(line.Need, d.FailPct(line.SizeIn, line.Colour))
		line.Spares = line.Buy - line.Need
	}
	rank := paletteRank(d.Job)
	stable.Sort(d.Balloons, func(a, b BalloonLine) int {
		return cmp.Or(cmp.Compare(a.SizeIn, b.SizeIn), cmp.Compare(rank(a.Colour.ID), rank(b.Colour.ID)))
	})
}

// FailPct returns the percentage of a size and colour that breaks: the brief's own figure, or the crew's plus what the
// place, the floor, the finish and the size add.
func (d *Draft) FailPct(sizeIn int, colour job.Colour) float64 {
	if own := d.Job.Brief.SparePct; own != nil {
		return *own
	}
	pct := d.BreakagePct()
	if d.Outdoors() {
		pct += d.Figures.Get("breakage/" + d.Job.Brief.Place)
	}
	if d.Job.Brief.Floor == "grass" || d.Job.Brief.Floor == "gravel" {
		pct += d.Figures.Get("breakage/rough")
	}
	if colour.Finish == "mirror" {
		pct += d.Figures.Get("breakage/mirror")
	}
	if sizeIn <= 5 {
		pct += d.Figures.Get("breakage/small")
	}
	return pct
}

// usualSurePct is the chance of enough balloons when the brief does not say.
const usualSurePct = 99

// WithSpares returns how many to buy so that enough survive, see [stock.Spares]. A need beyond its limit is split into
// parts, each as sure as asked.
func (d *Draft) WithSpares(need int, failPct float64) int {
	sure := d.Job.Brief.SurePct
	if !(sure > 0) || sure > stock.LargestSurePct {
		sure = usualSurePct
	}
	buy := 0
	for need > 0 {
		now := min(need, stock.LargestNeed)
		need -= now
		n, err := stock.Spares(now, min(max(failPct, 0), stock.LargestFailPct), sure)
		if err != nil {
			n = now // only for a share or odds that are not numbers: buy the bare need
		}
		buy += n
	}
	return buy
}

// BalloonLine is one size and colour to buy.
type BalloonLine struct {
	Key    string // "pack/latex/11/coral"
	SizeIn int
	Colour job.Colour
	Need   int // in the pieces
	Spares int
	Buy    int // need + spares
	Pieces []PieceShare
}

// PieceShare is the part of a line that one piece takes.
type PieceShare struct {
	Piece job.Piece
	ToIn  float64
	Count int
}
