package table

import (
	"math"

	"garlandry/calc/softsphere"
)

// Curves of two sizes are written with one byte per figure, all first figures before all second ones, because similar
// values compress well together. The figures are: the pitch at the lightest push and its decrease from push to push;
// the change of the square root of the visible background.
const (
	middle    = 128
	firstUnit = 64 // of the pitch at the lightest push
	pitchUnit = 128
	coverUnit = 64 // of the square root, which resolves small values better

	packedWidth = softsphere.Points + len(coverPushes)
)

// The pushes, by index, at which some figures are written. Between them figures are interpolated linearly.
var (
	coverPushes  = [...]int{0, 1, 2, 4, 5, 7, softsphere.Points - 1}
	factorPushes = [...]int{0, 2, 4, 6, 8, softsphere.Points - 1}
	hiddenPushes = [...]int{0, 2, 4, 7, softsphere.Points - 1}
)

// straighten interpolates linearly between some of the pushes.
func straighten(figures *softsphere.AtPushes, pushes []int) {
	from := 0
	for _, to := range pushes {
		for i := from + 1; i < to; i++ {
			figures[i] = figures[from] + float64((figures[to]-figures[from])*float64(i-from)/float64(to-from))
		}
		from = to
	}
}

// Pack writes curves of two sizes.
func Pack(curves []*softsphere.Curve) string {
	rows := len(curves)
	text := make([]byte, packedWidth*rows)
	for row, c := range curves {
		column := 0
		// put writes a figure in steps from an offset, and returns the figure that unpack will read.
		put := func(figure, unit float64, from int) float64 {
			number := min(max(int(math.Round(figure*unit))+from, 0), math.MaxUint8)
			text[column*rows+row] = byte(number)
			column++
			return float64(number-from) / unit
		}
		var kept softsphere.Curve
		kept.Pitch[0] = put(c.Pitch[0], firstUnit, 0)
		for i := 1; i < softsphere.Points; i++ {
			kept.Pitch[i] = kept.Pitch[i-1] - put(kept.Pitch[i-1]-c.Pitch[i], pitchUnit, 0)
		}
		root := 0.0
		for _, push := range coverPushes {
			root += put(math.Sqrt(max(1-c.Coverage[push], 0))-root, coverUnit, middle)
		}
	}
	return string(text)
}

// unpack reads a row of a text of Pack.
func unpack(c *softsphere.Curve, text string, row int) {
	rows := len(text) / packedWidth
	next := func(unit float64, from int) float64 {
		number := int(text[row]) - from
		row += rows
		return float64(number) / unit
	}
	c.Pitch[0] = next(firstUnit, 0)
	for i := 1; i < softsphere.Points; i++ {
		c.Pitch[i] = c.Pitch[i-1] - next(pitchUnit, 0)
	}
	root := 0.0
	for _, push := range coverPushes {
		root += next(coverUnit, middle)
		c.Coverage[push] = root
	}
	straighten(&c.Coverage, coverPushes[:])
	for i, root := range c.Coverage {
		c.Coverage[i] = 1 - float64(root*root)
	}
}

// The steps of factors, written as differences from 1, and of what is added to coverages.
const (
	offUnit    = 40
	hiddenUnit = 512
)

// PackFactors writes the factors for pitches and what is added to coverages, one byte each, all first ones before all
// second ones.
func PackFactors(rows []*softsphere.Curve) string {
	var text []byte
	put := func(figure, unit float64) {
		text = append(text, byte(min(max(int(math.Round(figure*unit))+middle, 0), math.MaxUint8)))
	}
	for _, push := range factorPushes {
		for _, c := range rows {
			put(c.Pitch[push]-1, offUnit)
		}
	}
	for _, push := range hiddenPushes {
		for _, c := range rows {
			put(c.Coverage[push], hiddenUnit)
		}
	}
	return string(text)
}

// corner is a row of factors and its weight in the interpolation between rows.
type corner struct {
	row   int
	share float64
}

// unpackFactors interpolates factors, and what is added to coverages, between rows of a text of PackFactors. If the
// weights do not sum to 1, the rest counts as a factor of 1 and as nothing.
func unpackFactors(c *softsphere.Curve, text string, corners *[4]corner) {
	column := 0
	next := func(unit float64) (off float64) {
		for i := range corners {
			at := &corners[i]
			off += float64(at.share * float64(int(text[column+at.row])-middle) / unit)
		}
		column += ThreeRows
		return off
	}
	for _, push := range factorPushes {
		c.Pitch[push] = 1 + next(offUnit)
	}
	for _, push := range hiddenPushes {
		c.Coverage[push] = next(hiddenUnit)
	}
	straighten(&c.Pitch, factorPushes[:])
	straighten(&c.Coverage, hiddenPushes[:])
}
