package count

import (
	"slices"

	"garlandry/app/job"
	"garlandry/calc/pattern"
)

// layBase deals the clusters of a base by its pattern. By hand, each cluster is of the kind picked for it, or as in a
// scattered base where none is picked or the piece has the kind no longer. The counts are then those of the clusters.
func (d *Draft) layBase(c *Counted, groups []group, how layer) Laid {
	if how.rule != job.ByHand {
		return d.lay(c, groups, how)
	}
	how.rule = pattern.Scattered
	aside := &Counted{PieceCount: PieceCount{Piece: c.Piece}}
	laid := d.lay(aside, groups, how)
	if len(laid.Sequence) != how.clusters {
		return d.lay(c, groups, how) // more than can be laid: only the counts are known
	}
	laid.addPlain(groups[0])
	laid.pick(ParseHand(c.Piece.Hand, how.clusters))
	laid.addTo(c, groups)
	return laid
}

// addPlain adds a kind of one colour for each colour that comes in every size of the recipe.
func (l *Laid) addPlain(main group) {
	keys := l.Keys()
	for _, colour := range main.colours {
		kind := allOf(main.recipe, colour)
		short := false
		for _, part := range kind.Recipe {
			short = short || main.without[part.SizeIn][colour.ID]
		}
		if !short && !slices.Contains(keys, kind.Key()) {
			l.Kinds = append(l.Kinds, *kind)
		}
	}
}

// pick gives clusters the kinds with the keys. Kinds without a cluster stay as choices.
func (l *Laid) pick(keys []string) {
	known := l.Keys()
	for i, key := range keys {
		if kind := slices.Index(known, key); key != "" && kind >= 0 && kind != l.Sequence[i] {
			l.Sequence[i], l.Deals[i] = kind, l.dealOf(&l.Kinds[kind])
		}
	}
	for i := range l.Kinds {
		l.Kinds[i].Clusters = 0
	}
	used := 0
	for _, kind := range l.Sequence {
		if l.Kinds[kind].Clusters++; l.Kinds[kind].Clusters == 1 {
			used++
		}
	}
	l.name()
	l.Choices, l.Kinds = l.Kinds, l.Kinds[:used:used]
}

// dealOf deals the balloons of one cluster of a kind.
func (l *Laid) dealOf(k *ClusterKind) (deal []int) {
	for _, b := range k.By {
		for range b.Count {
			deal = append(deal, l.sort(b.SizeIn, b.ToIn, b.Colour))
		}
	}
	return deal
}

// addTo adds to the piece what the clusters take.
func (l *Laid) addTo(c *Counted, groups []group) {
	clusters := make([]int, len(groups))
	for i := range l.Kinds {
		k := &l.Kinds[i]
		clusters[groupOf(groups, k)] += k.Clusters
		for _, b := range k.By {
			c.add(b.SizeIn, b.ToIn, b.Colour, b.Count*k.Clusters)
		}
	}
	for i, g := range groups {
		if g.lacking {
			c.Substitutes = append(c.Substitutes, (*LayerCount)(nil).substitute(g, clusters[i]))
		}
		for _, part := range g.recipe.Normal() {
			c.addDuplets(part.Duplets*clusters[i], part.SizeIn, part.ToIn, nil)
		}
	}
}

// groupOf returns the group whose clusters a kind is among.
func groupOf(groups []group, k *ClusterKind) int {
	for i, g := range groups {
		if g.lacking && g.recipe.String() == k.Recipe.String() && k.By[0].Colour.ID == g.colours[0].ID {
			return i
		}
	}
	return 0
}
