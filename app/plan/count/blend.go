package count

import (
	"math"
	"strconv"

	"garlandry/app/job"
	"garlandry/app/plan/phrase"
	"garlandry/calc/cluster"
	"garlandry/calc/latex"
)

// group is the clusters of a piece that share a recipe.
type group struct {
	recipe    cluster.Recipe
	colours   []job.Colour
	weights   []float64
	weight    float64 // of all its colours
	lacking   bool    // it replaces clusters of one colour that lacks a size
	closesPct float64
	without   map[int]map[string]bool // by size, then colour: the other colours take these
}

func (g group) coloursFor(sizeIn int) []job.Colour {
	var list []job.Colour
	for _, c := range g.colours {
		if !g.without[sizeIn][c.ID] {
			list = append(list, c)
		}
	}
	return list
}

func (g group) weightsFor(sizeIn int) []float64 {
	var list []float64
	for i, c := range g.colours {
		if !g.without[sizeIn][c.ID] {
			list = append(list, g.weights[i])
		}
	}
	return list
}

// The answers where a colour lacks a size.
const (
	pickSubstitute = "accept" // clusters of that colour are built from another size
	pickOthers     = "others" // other colours of the piece take the size
	pickKeep       = "keep"   // the size will be found after all
)

// blend sorts a piece's colours into groups that share a recipe. Colours that come in every size make one group and are
// mixed. A colour that lacks a size gets clusters of its own by the nearest recipe that it comes in. The user may
// instead give the size to the other colours or keep the recipe.
func (d *Draft) blend(c *Counted, recipe cluster.Recipe, shares []job.Share, on *LayerCount) []group {
	main := group{recipe: recipe, without: map[int]map[string]bool{}}
	var own []group
	colours := d.palette(shares)
	for _, w := range colours {
		substitute, ok := d.substitute(c, recipe, w, colours, on, &main)
		if ok {
			own = append(own, substitute)
			continue
		}
		main.colours = append(main.colours, w.Colour)
		main.weights = append(main.weights, w.weight)
		main.weight += w.weight
	}
	if main.weight > 0 {
		return append([]group{main}, own...)
	}
	return own
}

// substitute decides how to build a colour that lacks sizes of the recipe. It reports true if the colour gets clusters
// of its own.
func (d *Draft) substitute(
	c *Counted,
	recipe cluster.Recipe,
	w weighted,
	all []weighted,
	on *LayerCount,
	main *group,
) (group, bool) {
	own := group{recipe: recipe, colours: []job.Colour{w.Colour}, weights: []float64{w.weight},
		weight: w.weight, lacking: true, closesPct: 100}
	changed := false
	for _, part := range recipe {
		if w.ID == Undecided().ID || w.Has(part.SizeIn) || main.without[part.SizeIn][w.ID] {
			continue
		}
		l := lack{colour: w.Colour, recipe: own.recipe, sizeIn: part.SizeIn, others: anyHas(all, part.SizeIn), on: on}
		l.next, l.match = d.nearest(own.recipe, part.SizeIn, w.Colour)
		switch d.decide(c, l) {
		case pickSubstitute:
			own.recipe, changed = l.next, true
			own.closesPct = min(own.closesPct, l.match.ClosesPct)
		case pickOthers:
			if main.without[part.SizeIn] == nil {
				main.without[part.SizeIn] = map[string]bool{}
			}
			main.without[part.SizeIn][w.ID] = true
		}
	}
	return own, changed
}

// anyHas reports whether any colour comes in the size.
func anyHas(all []weighted, sizeIn int) bool {
	for _, w := range all {
		if w.Has(sizeIn) {
			return true
		}
	}
	return false
}

// lack is a colour that does not come in a size, with what could replace it.
type lack struct {
	colour job.Colour
	recipe cluster.Recipe
	sizeIn int
	next   cluster.Recipe // nil if nothing can replace it
	match  cluster.Match
	others bool        // another colour of the piece has the size
	on     *LayerCount // nil: of the base
}

// nearest tries every size the colour comes in and returns the recipe whose cluster is nearest in size.
func (d *Draft) nearest(
	recipe cluster.Recipe,
	lackingIn int,
	colour job.Colour,
) (best cluster.Recipe, match cluster.Match) {
	most := max(int(d.Figures.Get("base/most-duplets")), recipe.Duplets())
	for _, size := range colour.Sizes {
		with := cluster.Part{Duplets: 1, SizeIn: size, ToIn: d.usualToIn(recipe, size)}
		tried, m, err := cluster.Substitute(recipe, lackingIn, with, most)
		if err != nil {
			continue // no recipe with this size; try the next
		}
		if best == nil || math.Abs(m.SeenMM-m.TargetMM) < math.Abs(match.SeenMM-match.TargetMM)-0.01 {
			best, match = tried, m
		}
	}
	return best, match
}

// usualToIn returns what to inflate a size to: as in the recipe if it has the size, else the usual fill.
func (d *Draft) usualToIn(recipe cluster.Recipe, sizeIn int) float64 {
	for _, part := range recipe {
		if part.SizeIn == sizeIn {
			return part.ToIn
		}
	}
	return latex.UsualIn(sizeIn)
}

// decide asks what to do about a colour that lacks a size. It returns the user's answer, or what the plan does until
// there is one: a substitute in a base, the other colours in what is on it.
func (d *Draft) decide(c *Counted, l lack) string {
	part := Part{Piece: c.Piece.ID, Where: c.Piece.Name,
		Key: l.on.asked(c.Piece.ID) + "/" + l.colour.ID + "/" + strconv.Itoa(l.sizeIn)}
	switch {
	case l.on.isAccent():
		part.Where = ofAccents + part.Where
	case l.on != nil:
		part.Where = l.on.Name + " on " + part.Where
	}
	var options []Option
	if l.next != nil {
		of := dupletWords(l.next)
		part.How = "Its clusters can be built of " + of + " instead: " + sizeBeside(l.match) + " the " +
			phrase.Inch(l.sizeIn) + " look."
		options = append(options, Option{pickSubstitute, "Build its clusters of " + of, allOf(l.next, l.colour)})
	}
	if l.others {
		options = append(options, Option{Value: pickOthers, Label: useOthers})
	}
	keep := keepSize(l.sizeIn)
	keep.Cluster = allOf(l.recipe, l.colour)
	options = append(options, keep)
	untilThen := options[0].Value
	if l.on != nil && l.others {
		untilThen = pickOthers
	}
	return d.answer(part, l.colour, l.sizeIn, options, untilThen)
}

// useOthers is the label of [pickOthers].
const useOthers = "Use the other colours"

// keepSize is the answer that the size will be found after all.
func keepSize(sizeIn int) Option {
	return Option{Value: pickKeep, Label: "Keep " + phrase.Inch(sizeIn) + ": I can get it"}
}

// allOf returns a cluster of one colour.
func allOf(r cluster.Recipe, colour job.Colour) *ClusterKind {
	kind := &ClusterKind{Recipe: r.Normal()}
	for _, part := range kind.Recipe {
		kind.By = append(kind.By, PieceBalloons{part.SizeIn, part.ToIn, colour, 2 * part.Duplets})
	}
	return kind
}

// dupletWords writes a recipe in duplets: "4 duplets of 11-inch", "2 duplets of 11-inch and 1 of 18-inch".
func dupletWords(r cluster.Recipe) string {
	words := ""
	for i, part := range r {
		if i == 0 {
			words = phrase.Count(part.Duplets, "duplet")
		} else {
			words += " and " + strconv.Itoa(part.Duplets)
		}
		words += " of " + phrase.Inch(part.SizeIn)
	}
	return words
}

// sizeBeside compares the size of a substitute cluster with the one it replaces.
func sizeBeside(m cluster.Match) string {
	switch ratio := m.SeenMM / m.TargetMM; {
	case ratio < 0.9:
		return "smaller than"
	case ratio < 0.98:
		return "slightly smaller than"
	case ratio > 1.1:
		return "larger than"
	case ratio > 1.02:
		return "slightly larger than"
	}
	return "as large as"
}

// until says what the plan does while a question is open.
func until(pick string) string {
	switch pick {
	case pickSubstitute:
		return "Counted this way for now."
	case pickOthers:
		return "Counted in the other colours for now."
	}
	return "Counted as if you can get it for now."
}
