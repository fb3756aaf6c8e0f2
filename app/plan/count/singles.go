package count

import (
	"math"
	"strconv"

	"garlandry/app/job"
	"garlandry/app/plan/phrase"
	"garlandry/calc/latex"
)

// one deals balloons of a single size over the piece's colours. If a colour lacks the size, the other colours take its
// share; if they lack it too, it takes its own nearest size, one for one. The user may decide otherwise.
func (d *Draft) one(c *Counted, sizeIn int, toIn float64, total int) {
	colours := d.palette(c.Piece.Colours)
	others := anyHas(colours, sizeIn)
	var takers []weighted
	sizes := map[string]int{}
	for _, w := range colours {
		sizes[w.ID] = sizeIn
		if w.ID == Undecided().ID || w.Has(sizeIn) {
			takers = append(takers, w)
			continue
		}
		switch pick, near := d.decideSingle(c, w.Colour, sizeIn, others); pick {
		case pickOthers:
		case pickSubstitute:
			sizes[w.ID] = near
			takers = append(takers, w)
		default:
			takers = append(takers, w)
		}
	}
	weights := make([]float64, len(takers))
	for i, w := range takers {
		weights[i] = w.weight
	}
	for i, n := range split(total, weights) {
		size, to := sizes[takers[i].ID], toIn
		if size != sizeIn {
			to = latex.UsualIn(size)
		}
		c.add(size, to, takers[i].Colour, n)
	}
}

// decideSingle is [Draft.decide] for single balloons: there is no cluster to match, only the nearest size.
func (d *Draft) decideSingle(c *Counted, colour job.Colour, sizeIn int, others bool) (pick string, nearIn int) {
	for _, size := range colour.Sizes {
		if nearIn == 0 || math.Abs(float64(size-sizeIn)) < math.Abs(float64(nearIn-sizeIn)) {
			nearIn = size
		}
	}
	part := Part{Key: "substitute/" + c.Piece.ID + "/" + colour.ID + "/" + strconv.Itoa(sizeIn), Piece: c.Piece.ID,
		Where: c.Piece.Name}
	var options []Option
	if others {
		options = append(options, Option{Value: pickOthers, Label: useOthers})
	}
	if nearIn > 0 {
		part.How = "Its nearest size is " + phrase.Inch(nearIn) + ", one for one."
		options = append(options, Option{Value: pickSubstitute, Label: "Use " + phrase.Inch(nearIn) + " of it instead"})
	}
	options = append(options, keepSize(sizeIn))
	return d.answer(part, colour, sizeIn, options, options[0].Value), nearIn
}

// orUsual returns what a balloon is sized to in inches, its usual size if nothing is said.
func orUsual(toIn float64, sizeIn int) float64 {
	if toIn > 0 {
		return toIn
	}
	return latex.UsualIn(sizeIn)
}

// sizedTo returns what the piece's balloons are inflated to, inches: as the piece says, else the usual of the size. It
// adds a note if the size cannot hold what the piece says.
func (d *Draft) sizedTo(p job.Piece) float64 {
	size, known := latex.Find(p.SizeIn)
	switch {
	case !known:
		d.Warn(p.ID, p.Name+": there are no "+phrase.Inch(p.SizeIn)+" balloons. Choose another size.")
		return min(orUsual(p.ToIn, p.SizeIn), float64(p.SizeIn))
	case p.ToIn > 0 && p.ToIn <= size.FullIn:
		return p.ToIn
	}
	toIn := latex.UsualIn(p.SizeIn)
	if !(p.ToIn > 0) {
		return toIn
	}
	d.Inform(p.ID,
		"A "+phrase.Inch(p.SizeIn)+" balloon cannot be sized to "+d.Small(p.ToIn)+". "+p.Name+": counted with "+
			d.Small(toIn)+".")
	return toIn
}
