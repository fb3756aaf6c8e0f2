package count

import (
	"garlandry/app/job"
	"garlandry/calc/cluster"
	"garlandry/calc/pattern"
)

// Laid is which balloons lie where in a piece: in each of its clusters, or its bunches, digits or whatever it is made
// of.
type Laid struct {
	Kinds    []ClusterKind // in the order of their names
	Sequence []int         `json:",omitempty"` // the kind of each cluster, in building order
	Strands  int           `json:",omitempty"` // bases side by side, built one after another, each from its start

	// Sorts are the sizes and colours of balloons. Deals has, for each cluster in building order, the place in Sorts of
	// each of its balloons, in the order of [cluster.Recipe.DiametersMM].
	Sorts []PieceBalloons `json:"-"`
	Deals [][]int         `json:"-"`

	// Choices are the kinds that a pattern by hand may pick from, the ones in use first.
	Choices []ClusterKind `json:"-"`

	colours []job.Colour
}

// ClusterKind is one set of balloons that is made several times.
type ClusterKind struct {
	Name     string // "A"
	Clusters int
	Recipe   cluster.Recipe  `json:",omitempty"`
	By       []PieceBalloons // of one cluster
	Odd      bool            `json:",omitempty"` // made of what is left over
}

// layer is what one layer of a piece is dealt by: its base, or the accents on it.
type layer struct {
	clusters, strands int
	rule              pattern.Rule
	joined            bool
	on                *LayerCount // what is on the base; nil for the base
}

// lay deals clusters over the groups and their balloons over the colours. It adds what they take to the piece.
func (d *Draft) lay(c *Counted, groups []group, how layer) Laid {
	weights := make([]float64, len(groups))
	laid := Laid{Strands: how.strands}
	for i, g := range groups {
		weights[i] = g.weight
		laid.take(g.colours)
	}
	shares := allot(how.clusters, weights)
	parts := make([]dealt, len(groups))
	for i, g := range groups {
		if g.lacking {
			c.Substitutes = append(c.Substitutes, how.on.substitute(g, shares[i]))
		}
		base := pattern.Base{Clusters: shares[i], Strands: 1, Rule: how.rule, MostKinds: c.Piece.Mixes, Joined: how.joined}
		if len(groups) == 1 {
			base.Strands = how.strands
		}
		parts[i] = dealt{recipe: g.recipe.Normal(), clusters: shares[i]}
		for _, part := range parts[i].recipe {
			base.Sizes = append(base.Sizes, d.sizeOf(c, &laid, g, part, shares[i], how.on))
			parts[i].each = append(parts[i].each, 2*part.Duplets)
			c.addDuplets(part.Duplets*shares[i], part.SizeIn, part.ToIn, how.on)
		}
		parts[i].lay(base)
	}
	laid.join(parts, how.rule == pattern.Bands || how.rule == pattern.Fade)
	return laid
}

// take adds colours that are not there yet.
func (l *Laid) take(colours []job.Colour) {
	for _, colour := range colours {
		if l.place(colour.ID) < 0 {
			l.colours = append(l.colours, colour)
		}
	}
}

// place returns where a colour is in the list; -1 if it is not.
func (l *Laid) place(id string) int {
	for i := range l.colours {
		if l.colours[i].ID == id {
			return i
		}
	}
	return -1
}

// sizeOf splits the balloons of a part of a recipe over the group's colours, and adds them to the piece and its layer.
func (d *Draft) sizeOf(c *Counted, laid *Laid, g group, part cluster.Part, clusters int, on *LayerCount) pattern.Size {
	size := pattern.Size{Each: 2 * part.Duplets, Colours: make([]int, len(laid.colours))}
	colours := g.coloursFor(part.SizeIn)
	for i, n := range split(size.Each*clusters, g.weightsFor(part.SizeIn)) {
		size.Colours[laid.place(colours[i].ID)] += n
		c.add(part.SizeIn, part.ToIn, colours[i], n)
		if on != nil && n > 0 {
			on.Balloons += n
			on.By = plus(on.By, PieceBalloons{part.SizeIn, part.ToIn, colours[i], n})
		}
	}
	return size
}

// sort returns the place of a size and colour in Sorts, where it adds it if it is new.
func (l *Laid) sort(sizeIn int, toIn float64, colour job.Colour) int {
	for i := range l.Sorts {
		s := &l.Sorts[i]
		if s.SizeIn == sizeIn && s.ToIn == toIn && s.Colour.ID == colour.ID {
			s.Count++
			return i
		}
	}
	l.Sorts = append(l.Sorts, PieceBalloons{sizeIn, toIn, colour, 1})
	return len(l.Sorts) - 1
}
