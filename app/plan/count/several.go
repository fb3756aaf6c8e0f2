package count

import (
	"math"
	"strconv"

	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
)

// Base is one of several bases that are tied to one another on one line.
type Base struct {
	LengthMM float64
	Clusters int
}

// offTolerance is how far the sum of bases may be off the length of their line before a note says so. From memory.
const offTolerance = 0.02

// sumMM returns the length of all bases, 0 if the piece has but one of the length of its line.
func sumMM(bases []float64) float64 {
	sum := 0.0
	for _, mm := range bases {
		sum += mm
	}
	return sum
}

// strung counts bases of the given lengths one after another along a line, each with its own clusters, sections and
// ties. Colours run through all of them.
func (d *Draft) strung(c *Counted, lengths []float64) {
	c.LengthMM = sumMM(lengths)
	groups := d.baseGroups(c)
	if groups == nil {
		return
	}
	fix, number, what := 0, 0, "Clusters"
	bases := make([]Base, len(lengths))
	for i, mm := range lengths {
		if len(lengths) > 1 {
			number = i + 1
			what = "Base " + strconv.Itoa(number)
		}
		bases[i] = Base{mm, d.clustersAlong(mm, c.PitchMM, groups)}
		c.Clusters += bases[i].Clusters
		c.line(what, d.Length(mm)+" at one every "+d.SmallMM(c.PitchMM), phrase.Count(bases[i].Clusters, "cluster"),
			pitchSource(d.Push))
		d.cut(c, mm, bases[i].Clusters, 1, number)
		fix += d.fixTies(mm)
	}
	d.dealBase(c, groups, 1)
	d.joinTies(c, fix)
	if len(c.Piece.Bases) > 0 {
		c.Bases = bases
	}
	if number > 0 {
		extra := d.Figures.Row("ties/bases")
		n := figures.RoundUp(float64(float64(number-1) * extra.Value))
		c.Ties += n
		c.line("Ties where bases meet", strconv.Itoa(number-1)+" x "+phrase.Number(extra.Value), phrase.Count(n, "tie"),
			extra.Source)
	}
}

// offNote says how much several bases are off the length of their line. Nothing is scaled: they count as typed.
func (d *Draft) offNote(c *Counted, lineMM float64, typed bool) {
	sum := sumMM(c.Piece.Bases)
	off := sum - lineMM
	if math.Abs(off) <= float64(offTolerance*lineMM) {
		return
	}
	words := ": its bases are " + d.Length(sum) + " in all, its line " + d.Length(lineMM)
	switch {
	case typed:
		words += ". Counted and drawn as they are."
	case off < 0:
		words += ". " + d.Length(-off) + " at the end stays bare."
	default:
		words += ". That is " + d.Length(off) + " too long; it is drawn squeezed."
	}
	d.Warn(c.Piece.ID, c.Piece.Name+words)
}
