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

// Digits returns the balloons of number frames: spread evenly over the bars, half in front and half behind. Clusters
// are digits. Without bars all are at the origin.
func Digits(digits []Digit, diameterMM float64) []Balloon {
	var balloons []Balloon
	radius := radiusOf(diameterMM)
	for k := range digits {
		d, slot := digits[k], 0
		if len(d.Bars) == 0 {
			d.Bars = make([]Rectangle, 1)
		}
		for layer := range 2 {
			count := (max(d.Balloons, 0) + 1 - layer) / 2
			side := float64(1 - 2*layer)
			for i, n := range byArea(d.Bars, count) {
				for _, p := range d.Bars[i].spread(n, side/4) {
					balloons = append(balloons, Balloon{p.XMM, p.YMM, side * radius * layerApart, radius, k, 0, slot})
					slot++
				}
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

// spread returns n points in even rows, moved to the upper right by a share of their distances.
func (r Rectangle) spread(n int, aside float64) []outline.Point {
	if n < 1 {
		return nil
	}
	rows := 1
	if area := r.area(); area > 0 {
		rows = min(max(int(math.Sqrt(float64(n)*(r.HighMM/r.WideMM))+0.5), 1), n)
	}
	points := make([]outline.Point, 0, n)
	for row := range rows {
		columns := (row+1)*n/rows - row*n/rows
		for column := range columns {
			points = append(points, outline.Point{
				XMM: r.LeftMM + float64(r.WideMM*((float64(column)+0.5+aside)/float64(columns))),
				YMM: r.BottomMM + float64(r.HighMM*((float64(row)+0.5+aside)/float64(rows))),
			})
		}
	}
	return points
}
