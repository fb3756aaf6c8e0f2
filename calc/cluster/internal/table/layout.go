package table

import "garlandry/calc/softsphere"

// Group is the duplets of a cluster with the same diameter.
type Group struct {
	Duplets  int
	Diameter float64
}

// MostDuplets is the largest number of duplets in a cluster of one or two sizes, MostThree in one of three sizes.
const (
	MostDuplets = 8
	MostThree   = 5
)

// MixedRows and ThreeRows are the numbers of clusters of two and three sizes.
const (
	MixedRows = (MostDuplets - 1) * MostDuplets / 2 * ratioCount
	ThreeRows = shapeCount * lowerCount * upperCount

	ratioCount = 5
	lowerCount = 5
	upperCount = 4
	shapeCount = len(threeCounts) / 3
)

// The size ratios of two sizes, rising: 1.6 is 16 to 10 in, 2.2 is 22 to 10 in or 10 to 4.5 in, 3.5 is 16 to 4.5 in.
// Those of three sizes are middle to small, and large to middle.
var (
	ratios = [ratioCount]float64{1.3, 1.6, 2.2, 3.5, 6}
	lowers = [lowerCount]float64{1.3, 1.75, 2.3, 3.5, 5.75}
	uppers = [upperCount]float64{1.3, 1.75, 2.3, 3.9}
)

// threeCounts lists the duplets of three sizes, one digit per size.
const threeCounts = "111" + "211" + "121" + "112" + "311" + "131" + "113" + "221" + "212" + "122"

// Alike lists the clusters of one size in their written order. In these lists the smallest balloon is 1 across.
func Alike() [][]Group {
	var rows [][]Group
	for duplets := 1; duplets <= MostDuplets; duplets++ {
		rows = append(rows, []Group{{duplets, 1}})
	}
	return rows
}

// Mixed lists the clusters of two sizes in their written order.
func Mixed() [][]Group {
	var rows [][]Group
	for duplets := 2; duplets <= MostDuplets; duplets++ {
		for small := 1; small < duplets; small++ {
			for _, ratio := range ratios {
				rows = append(rows, []Group{{small, 1}, {duplets - small, ratio}})
			}
		}
	}
	return rows
}

// Three lists the clusters of three sizes in their written order. The last row of each shape is as uneven as can be
// relaxed, slightly less than its ratios.
func Three() [][]Group {
	var rows [][]Group
	for shape := 0; shape < len(threeCounts); shape += 3 {
		count := func(size int) int { return int(threeCounts[shape+size] - '0') }
		for _, lower := range lowers {
			for _, upper := range uppers {
				rows = append(rows, []Group{{count(0), 1}, {count(1), lower}, {count(2), min(lower*upper, softsphere.MaxRatio)}})
			}
		}
	}
	return rows
}

// mixedRow returns the row of Mixed for these duplets and the first ratio.
func mixedRow(small, large int) int {
	before := (small + large - 2) * (small + large - 1) / 2
	return (before + small - 1) * ratioCount
}

// threeRow returns the row of Three for these duplets and the first ratios, or -1.
func threeRow(groups []Group) int {
	for shape := 0; shape < len(threeCounts) && len(groups) == 3; shape += 3 {
		same := true
		for i := range groups {
			same = same && groups[i].Duplets == int(threeCounts[shape+i]-'0')
		}
		if same {
			return shape / 3 * lowerCount * upperCount
		}
	}
	return -1
}

// Diameters lists the diameters of a cluster's balloons.
func Diameters(groups []Group) []float64 {
	var diameters []float64
	for _, g := range groups {
		for range 2 * g.Duplets {
			diameters = append(diameters, g.Diameter)
		}
	}
	return diameters
}

// Held reports whether the table has the cluster, or clusters on both sides of it: one size, two sizes, and three
// sizes with up to MostThree duplets, within its ratios. Groups are sorted by size, smallest first.
func Held(groups []Group) bool {
	switch len(groups) {
	case 1:
		return true
	case 2:
		return groups[1].Diameter <= ratios[ratioCount-1]*groups[0].Diameter
	}
	return threeRow(groups) >= 0 && groups[1].Diameter <= lowers[lowerCount-1]*groups[0].Diameter &&
		groups[2].Diameter <= uppers[upperCount-1]*groups[1].Diameter
}
