package picture

import (
	"math"

	"garlandry/calc/outline"
)

// Rectangle is a filled part of a digit.
type Rectangle struct{ LeftMM, BottomMM, WideMM, HighMM float64 }

func (r Rectangle) area() float64 { return float64(max(r.WideMM, 0) * max(r.HighMM, 0)) }

// Digit is one digit of a number frame: its filled parts, which must not overlap, and the number of its balloons.
type Digit struct {
	Bars     []Rectangle
	Balloons int
}

// layerApart is how far the two layers of a digit are from each other, in diameters. Duplets are pressed in from
// behind, so one balloon of each is in front and one behind.
const layerApart = 0.8

// rowPitch is the distance of rows as a share of that in a row, as circles packed closest have it.
const rowPitch = 0.866

// Digits returns the balloons of number frames: spread evenly over the bars, by turns in front and behind. Clusters are
// digits; the slots of those in front come first, and of an odd number one more is in front. Without bars all are at
// the origin.
func Digits(digits []Digit, diameterMM float64) []Balloon {
	var balloons []Balloon
	radius := radiusOf(diameterMM)
	for k := range digits {
		d := digits[k]
		if len(d.Bars) == 0 {
			d.Bars = make([]Rectangle, 1)
		}
		at, behind := 0, (max(d.Balloons, 0)+1)/2
		for i, n := range byArea(d.Bars, max(d.Balloons, 0)) {
			for _, p := range d.Bars[i].spread(n) {
				depth, slot := float64(radius*layerApart), at/2
				if at%2 == 1 {
					depth, slot = -depth, behind+at/2
				}
				balloons = append(balloons, Balloon{p.XMM, p.YMM, depth, radius, k, 0, slot})
				at++
			}
		}
	}
	return balloons
}

// byArea deals a count over rectangles by their areas.
func byArea(bars []Rectangle, count int) []int {
	whole, sum, dealt := 0.0, 0.0, 0
	for _, r := range bars {
		whole += r.area()
	}
	counts := make([]int, len(bars))
	for i, r := range bars {
		sum += r.area()
		upTo := count
		if i < len(bars)-1 && whole > 0 {
			upTo = min(int(math.Floor(float64(float64(count)*(sum/whole))+0.5)), count)
		}
		counts[i], dealt = upTo-dealt, upTo
	}
	return counts
}

// spread returns n points in rows, each row in the gaps of the one below where they are alike. Every other row runs
// back, so that every other point lies evenly too.
func (r Rectangle) spread(n int) []outline.Point {
	if n < 1 {
		return nil
	}
	rows := 1
	if area := r.area(); area > 0 {
		rows = min(max(int(math.Sqrt(float64(n)*(r.HighMM/r.WideMM)/rowPitch)+0.5), 1), n)
	}
	points := make([]outline.Point, 0, n)
	before, aside := 0, -0.25
	for row := range rows {
		columns := (row+1)*n/rows - row*n/rows
		shift := 0.0
		if columns == before {
			aside = -aside
			shift = aside
		}
		before = columns
		for column := range columns {
			if row%2 == 1 {
				column = columns - 1 - column
			}
			points = append(points, outline.Point{
				XMM: r.LeftMM + float64(r.WideMM*((float64(column)+0.5+shift)/float64(columns))),
				YMM: r.BottomMM + float64(r.HighMM*((float64(row)+0.5)/float64(rows))),
			})
		}
	}
	return points
}
