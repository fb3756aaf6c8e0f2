package count

import (
	"math"
	"strconv"

	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/calc/pattern"
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

// several counts bases of the given lengths along one line, each with its own clusters, sections and ties. Colours run
// through all of them.
func (d *Draft) several(c *Counted, lengths []float64) {
	c.LengthMM = sumMM(lengths)
	groups := d.baseGroups(c)
	if groups == nil {
		return
	}
	every := d.Figures.Row("ties/fix-every")
	fix, number := 0, 0
	for i, mm := range lengths {
		base := Base{mm, d.clustersAlong(mm, c.PitchMM, groups)}
		c.Bases = append(c.Bases, base)
		c.Clusters += base.Clusters
		c.line("Base "+strconv.Itoa(i+1), d.Length(mm)+" at one every "+d.SmallMM(c.PitchMM),
			phrase.Count(base.Clusters, "cluster"), pitchSource(d.Push))
		if len(lengths) > 1 {
			number = i + 1
		}
		d.cut(c, mm, base.Clusters, 1, number)
		fix += figures.RoundUp(mm/every.Value + d.Figures.Get("ties/ends"))
	}
	c.line("Total", phrase.Count(len(lengths), "base"), phrase.Count(c.Clusters, "cluster"), figures.Arithmetic())
	c.Laid = d.layBase(c, groups, layer{clusters: c.Clusters, strands: 1, rule: pattern.Rule(c.Piece.Pattern)})
	c.Make = Batch{c.Clusters, "cluster", "clusters"}
	c.Fix = Batch{len(c.Sections), "section", "sections"}
	d.tie(c, fix)
	if meet := len(lengths) - 1; meet > 0 {
		extra := d.Figures.Row("ties/bases")
		n := figures.RoundUp(float64(float64(meet) * extra.Value))
		c.Ties += n
		c.line("Ties where bases meet", strconv.Itoa(meet)+" x "+phrase.Number(extra.Value), phrase.Count(n, "tie"),
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
	words := ": its bases are " + d.Length(sum) + " in all, "
	switch {
	case typed:
		words += "its length says " + d.Length(lineMM) + ". Counted and drawn as " + d.Length(sum) + "."
	case off < 0:
		words += "its line " + d.Length(lineMM) + ". " + d.Length(-off) + " at the end stays bare."
	default:
		words += "its line " + d.Length(lineMM) + ". That is " + d.Length(off) + " too long; it is drawn squeezed."
	}
	d.Warn(c.Piece.ID, c.Piece.Name+words)
}
