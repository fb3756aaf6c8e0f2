package count

import "garlandry/calc/pattern"

// layBunches deals the piece's balloons, so many to each of its bunches, duplets or the like, in few kinds.
func (c *Counted) layBunches(bunches, each int) {
	size := pattern.Size{Each: each}
	for _, b := range c.By {
		size.Colours = append(size.Colours, b.Count)
	}
	dealt, err := pattern.Lay(pattern.Base{Clusters: bunches, Rule: pattern.Scattered, Sizes: []pattern.Size{size}})
	if err != nil {
		return // more than can be dealt: only the counts are known
	}
	laid := Laid{Sorts: append([]PieceBalloons(nil), c.By...), Sequence: dealt.Sequence}
	for _, k := range dealt.Kinds {
		kind := ClusterKind{Clusters: k.Count, Odd: k.Odd, Name: pattern.Name(len(laid.Kinds))}
		for i, n := range k.Of[0] {
			if n > 0 {
				b := c.By[i]
				b.Count = n
				kind.By = append(kind.By, b)
			}
		}
		laid.Kinds = append(laid.Kinds, kind)
	}
	for i := range bunches {
		laid.Deals = append(laid.Deals, dealt.Slots[0][i*each:(i+1)*each])
	}
	c.Laid = laid
}
