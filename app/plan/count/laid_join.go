package count

import (
	"cmp"

	"garlandry/calc/cluster"
	"garlandry/calc/pattern"
	"garlandry/calc/stable"
)

// dealt is the laid clusters of one group.
type dealt struct {
	pattern.Laid
	recipe   cluster.Recipe
	each     []int // balloons of each of its parts in a cluster
	clusters int
	next     int // of those that are not placed yet
}

// lay lays a group. More than can be laid stays without kinds: then only the counts are known.
func (p *dealt) lay(base pattern.Base) {
	laid, err := pattern.Lay(base)
	if err != nil {
		p.clusters = 0
		return
	}
	p.Laid = laid
}

// join puts the clusters of all groups into one sequence: in blocks of colour those of a substitute stand where their
// colour does, else they are spread evenly.
func (l *Laid) join(parts []dealt, blocks bool) {
	kinds := make([][]int, len(parts)) // by group, then kind of the group: kind of the piece
	for i := range parts {
		for _, k := range parts[i].Kinds {
			kinds[i] = append(kinds[i], len(l.Kinds))
			l.Kinds = append(l.Kinds, l.kind(&parts[i], k))
		}
	}
	for i := nextPart(parts, blocks); i >= 0; i = nextPart(parts, blocks) {
		p := &parts[i]
		l.Sequence = append(l.Sequence, kinds[i][p.Sequence[p.next]])
		l.Deals = append(l.Deals, l.balloons(p))
		p.next++
	}
	if len(parts) > 1 && l.Strands > 1 {
		l.strandByStrand()
	}
	l.name()
}

// nextPart returns the group whose cluster comes next along the piece; -1 if all are placed.
func nextPart(parts []dealt, blocks bool) int {
	best, least := -1, 0.0
	for i := range parts {
		p := &parts[i]
		if p.next >= p.clusters {
			continue
		}
		due := (float64(p.next) + 0.5) / float64(p.clusters)
		if blocks {
			due = p.meanColour()
		}
		if best < 0 || due < least {
			best, least = i, due
		}
	}
	return best
}

// meanColour is the mean place of the colours of a group's next cluster.
func (p *dealt) meanColour() float64 {
	sum, n := 0, 0
	for i, each := range p.each {
		for _, colour := range p.Slots[i][p.next*each : (p.next+1)*each] {
			sum, n = sum+colour, n+1
		}
	}
	return float64(sum) / float64(max(1, n))
}

// balloons lists the sorts of the balloons of a group's next cluster.
func (l *Laid) balloons(p *dealt) []int {
	var list []int
	for i, part := range p.recipe {
		for _, colour := range p.Slots[i][p.next*p.each[i] : (p.next+1)*p.each[i]] {
			list = append(list, l.sort(part.SizeIn, part.ToIn, l.colours[colour]))
		}
	}
	return list
}

// strandByStrand turns an order that goes round the strands at each height into building order.
func (l *Laid) strandByStrand() {
	sequence, deals := make([]int, 0, len(l.Sequence)), make([][]int, 0, len(l.Deals))
	for strand := range l.Strands {
		for at := strand; at < len(l.Sequence); at += l.Strands {
			sequence, deals = append(sequence, l.Sequence[at]), append(deals, l.Deals[at])
		}
	}
	l.Sequence, l.Deals = sequence, deals
}

// kind describes a kind of cluster by its balloons.
func (l *Laid) kind(p *dealt, k pattern.Kind) ClusterKind {
	kind := ClusterKind{Clusters: k.Count, Recipe: p.recipe, Odd: k.Odd}
	for i, part := range p.recipe {
		for colour, n := range k.Of[i] {
			if n > 0 {
				kind.By = append(kind.By, PieceBalloons{part.SizeIn, part.ToIn, l.colours[colour], n})
			}
		}
	}
	return kind
}

// name gives the kinds their names: the more often one is made the earlier, odd ones last, then those
// that are not made.
func (l *Laid) name() {
	order := make([]int, len(l.Kinds))
	for i := range order {
		order[i] = i
	}
	stable.Sort(order, func(a, b int) int {
		one, other := &l.Kinds[a], &l.Kinds[b]
		switch {
		case one.Clusters == 0 || other.Clusters == 0: // only choices
		case one.Odd && !other.Odd:
			return 1
		case other.Odd && !one.Odd:
			return -1
		}
		return cmp.Compare(other.Clusters, one.Clusters)
	})
	kinds, named := make([]ClusterKind, len(order)), make([]int, len(order))
	for place, i := range order {
		kinds[place], named[i] = l.Kinds[i], place
		kinds[place].Name = pattern.Name(place)
	}
	l.Kinds = kinds
	for i := range l.Sequence {
		l.Sequence[i] = named[l.Sequence[i]]
	}
}
