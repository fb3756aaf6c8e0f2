package table

import (
	"math"

	"garlandry/calc/softsphere"
)

// Growth is one size of a cluster or string of equal balloons, in their diameters, for 1 to MostDuplets duplets. Every
// size of clusters of any balloons follows from it: a smaller balloon counts as a part of a largest one, a power of its
// share of the largest diameter. So no size falls when a balloon is added or grows, and all sizes scale.
type Growth [MostDuplets]float64

// Quarters of the powers by which smaller balloons count, chosen so that the relaxed clusters of the table are near.
const (
	BallQuarters   = 5
	SeenQuarters   = 10
	StringQuarters = 12
)

// Sizes are the sizes of a cluster, in the unit of its groups: the sphere that holds it free and the disc it seems to
// be, and the visible and the largest width of its string.
type Sizes struct{ Ball, Seen, Width, Widest float64 }

// SizesAt computes the sizes of a cluster of 1 to MostDuplets duplets, whose groups are sorted by size, smallest first,
// at a push.
func SizesAt(groups []Group, push float64) Sizes {
	largest := groups[len(groups)-1].Diameter
	strung, visible, most := Counted(groups, StringQuarters), at(&width, push), at(&widest, push)
	return Sizes{
		Ball:   largest * ball.At(Counted(groups, BallQuarters)),
		Seen:   largest * seen.At(Counted(groups, SeenQuarters)),
		Width:  largest * visible.At(strung),
		Widest: largest * most.At(strung),
	}
}

// Counted returns how many duplets of the largest size the groups count as, at a power in quarters.
func Counted(groups []Group, quarters int) float64 {
	largest, duplets := groups[len(groups)-1].Diameter, 0.0
	for i := range groups {
		share := groups[i].Diameter / largest
		root, counts := math.Sqrt(math.Sqrt(share)), float64(groups[i].Duplets)
		for range quarters % 4 {
			counts *= root
		}
		for range quarters / 4 {
			counts *= share
		}
		duplets += counts
	}
	return duplets
}

// At returns the size for a number of duplets. It interpolates linearly.
func (g *Growth) At(duplets float64) float64 {
	i := min(max(int(duplets)-1, 0), MostDuplets-2)
	share := min(max(duplets-float64(i+1), 0), 1)
	return g[i] + float64((g[i+1]-g[i])*share)
}

// at returns a growth at a push.
func at(pushes *[MostDuplets]softsphere.AtPushes, push float64) (g Growth) {
	for i := range pushes {
		g[i] = pushes[i].At(push)
	}
	return g
}
