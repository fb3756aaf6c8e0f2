package table

import "garlandry/calc/softsphere"

// Rising computes what Curve does, with pitches that never fall when a duplet is added: no pitch is below that of a
// cluster made of some of the same duplets. It compares all of those, at most 254, at every push of a curve. Between
// pushes and sizes it is as continuous as Curve, because it takes the largest of continuous curves.
func (b *Book) Rising(c *softsphere.Curve, groups []Group) (mean float64) {
	mean = b.Curve(c, groups)
	var counts [MostDuplets]int
	var few [MostDuplets]Group
	for next(counts[:len(groups)], groups) {
		kept := few[:0]
		for i := range groups {
			if counts[i] > 0 {
				kept = append(kept, Group{counts[i], groups[i].Diameter})
			}
		}
		var fewer softsphere.Curve
		scale := b.Curve(&fewer, kept) / mean
		for i := range softsphere.Points {
			c.Pitch[i] = max(c.Pitch[i], fewer.Pitch[i]*scale)
		}
	}
	return mean
}

// next moves counts to the next selection of the groups' duplets, from none to all. It returns false at all of them.
func next(counts []int, groups []Group) bool {
	for i := range counts {
		if counts[i] < groups[i].Duplets {
			counts[i]++
			for j := range counts {
				if counts[j] < groups[j].Duplets {
					return true
				}
			}
			return false
		}
		counts[i] = 0
	}
	return false
}
