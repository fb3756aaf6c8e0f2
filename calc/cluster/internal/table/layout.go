package table

import "garlandry/calc/nest"

// Group is the duplets of a cluster that are sized alike.
type Group struct {
	Duplets  int
	Diameter float64
}

// MostDuplets is the most duplets of a cluster of one size or two, MostThree of
// three sizes.
const (
	MostDuplets = 8
	MostThree   = 5
)

// MixedRows and ThreeRows are how many clusters of two sizes and of three there are.
const (
	MixedRows = (MostDuplets - 1) * MostDuplets / 2 * ratioCount
	ThreeRows = shapeCount * lowerCount * upperCount

	ratioCount = 5
	lowerCount = 5
	upperCount = 4
	shapeCount = 10
)

// Ratios are the size ratios of two sizes, rising: 1.6 is 16 on 10 in, 2.2 is 22
// on 10 in or 10 on 4.5 in, 3.5 is 16 on 4.5 in.
func Ratios() [ratioCount]float64 { return [ratioCount]float64{1.3, 1.6, 2.2, 3.5, 6} }

// Lower and Upper are the ratios of three sizes: the middle one to the small one,
// and the large one to the middle one.
func Lower() [lowerCount]float64 { return [lowerCount]float64{1.3, 1.75, 2.3, 3.5, 5.75} }

// Upper: see Lower.
func Upper() [upperCount]float64 { return [upperCount]float64{1.3, 1.75, 2.3, 3.9} }

// Alike lists the clusters of one size in their written order, Mixed those of two
// and Three those of three. The smallest balloon is 1 across.
func Alike() [][]Group {
	var rows [][]Group
	for duplets := 1; duplets <= MostDuplets; duplets++ {
		rows = append(rows, []Group{{duplets, 1}})
	}
	return rows
}

// Mixed: see Alike.
func Mixed() [][]Group {
	var rows [][]Group
	for duplets := 2; duplets <= MostDuplets; duplets++ {
		for small := 1; small < duplets; small++ {
			for _, ratio := range Ratios() {
				rows = append(rows, []Group{{small, 1}, {duplets - small, ratio}})
			}
		}
	}
	return rows
}

// Three: see Alike. The last row of each is as uneven as can be relaxed, a little
// less than its ratios say.
func Three() [][]Group {
	var rows [][]Group
	for _, counts := range threeCounts() {
		for _, lower := range Lower() {
			for _, upper := range Upper() {
				rows = append(rows, []Group{
					{counts[0], 1}, {counts[1], lower}, {counts[2], min(lower*upper, nest.MaxRatio)},
				})
			}
		}
	}
	return rows
}

// threeCounts lists the duplets of three sizes.
func threeCounts() [shapeCount][3]int {
	return [shapeCount][3]int{
		{1, 1, 1}, {2, 1, 1}, {1, 2, 1}, {1, 1, 2},
		{3, 1, 1}, {1, 3, 1}, {1, 1, 3}, {2, 2, 1}, {2, 1, 2}, {1, 2, 2},
	}
}

// mixedRow is the number of a row of Mixed, its first ratio.
func mixedRow(small, large int) int {
	before := (small + large - 2) * (small + large - 1) / 2
	return (before + small - 1) * ratioCount
}

// threeRow is the number of a row of Three, its first ratios; false when none has
// these duplets.
func threeRow(groups []Group) (int, bool) {
	for i, counts := range threeCounts() {
		if groups[0].Duplets == counts[0] && groups[1].Duplets == counts[1] && groups[2].Duplets == counts[2] {
			return i * lowerCount * upperCount, true
		}
	}
	return 0, false
}

// Diameters lists the balloons of a cluster.
func Diameters(groups []Group) []float64 {
	var diameters []float64
	for _, g := range groups {
		for range 2 * g.Duplets {
			diameters = append(diameters, g.Diameter)
		}
	}
	return diameters
}

// Held says whether the table has the cluster, or clusters on both sides of it:
// one size, two sizes, and three sizes with up to MostThree duplets, as far as its
// ratios go. Groups are sorted by size, smallest first.
func Held(groups []Group) bool {
	switch len(groups) {
	case 1:
		return true
	case 2:
		return groups[1].Diameter <= Ratios()[ratioCount-1]*groups[0].Diameter
	case 3:
		_, known := threeRow(groups)
		return known && groups[1].Diameter <= Lower()[lowerCount-1]*groups[0].Diameter &&
			groups[2].Diameter <= Upper()[upperCount-1]*groups[1].Diameter
	}
	return false
}
