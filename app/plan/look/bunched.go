package look

import (
	"cmp"

	"garlandry/app/plan/count"
	"garlandry/calc/latex"
	"garlandry/calc/picture"
	"garlandry/calc/stable"
)

// bunchGap is the gap between bunches side by side, as a share of their width.
const bunchGap = 0.25

// bunched places bunches side by side: bouquets on their ribbons, others as heaps. Balloons that are no bunches lie in
// one heap.
func (l *Look) bunched(c *count.PieceCount) []picture.Balloon {
	l.Stands = true
	deals := c.Laid.Deals
	if c.Form == count.Heaped && len(deals[0]) == 1 {
		var all []int
		for _, deal := range deals {
			all = append(all, deal...)
		}
		balloons := l.bunch(&c.Laid, all, c, 0)
		for i := range balloons { // each is a cluster of its own
			balloons[i].Cluster, balloons[i].Slot = balloons[i].Slot, 0
		}
		return balloons
	}
	var balloons []picture.Balloon
	left := 0.0
	for i, deal := range deals {
		bunch := l.bunch(&c.Laid, deal, c, left)
		for k := range bunch {
			bunch[k].Cluster = i
		}
		e := picture.ExtentOf(bunch)
		left = e.RightMM + float64((e.RightMM-e.LeftMM)*bunchGap)
		balloons = append(balloons, bunch...)
	}
	return balloons
}

// bunch places one bunch with its left edge at a place. Slots are those of its deal.
func (l *Look) bunch(laid *count.Laid, deal []int, c *count.PieceCount, leftMM float64) []picture.Balloon {
	order := make([]int, len(deal)) // largest first, as a pile is built
	for i := range order {
		order[i] = i
	}
	stable.Sort(order, func(a, b int) int {
		return cmp.Compare(laid.Sorts[deal[b]].ToIn, laid.Sorts[deal[a]].ToIn)
	})
	var sizes []picture.Size
	var firsts []int
	for at, i := range order {
		diameter := float64(laid.Sorts[deal[i]].ToIn * latex.MMPerInch)
		if last := len(sizes) - 1; last >= 0 && sizes[last].DiameterMM == diameter {
			sizes[last].Count++
			continue
		}
		sizes, firsts = append(sizes, picture.Size{DiameterMM: diameter, Count: 1}), append(firsts, at)
	}
	var balloons []picture.Balloon
	var lines []picture.Line
	if c.Form == count.Bunched {
		balloons, lines = picture.Bouquets(sizes, 1, c.Piece.Gas == "helium")
	} else {
		balloons = picture.Heap(sizes)
	}
	across := leftMM - picture.ExtentOf(balloons).LeftMM
	for i := range balloons {
		b := &balloons[i]
		b.XMM += across
		b.Part, b.Slot = 0, order[firsts[b.Part]+b.Slot]
	}
	for _, line := range lines {
		for i := range line.Points {
			line.Points[i].XMM += across
		}
		l.Lines = append(l.Lines, lineOf(line))
	}
	return balloons
}

// pressed places duplets in digits: one balloon of each in front and one behind.
func (l *Look) pressed(c *count.PieceCount) []picture.Balloon {
	l.Stands = true
	balloons := picture.Digits(c.Digits, float64(c.Laid.Sorts[0].ToIn*latex.MMPerInch))
	before := make([]int, len(c.Digits)) // duplets of the digits before
	for i := 1; i < len(before); i++ {
		before[i] = before[i-1] + c.Digits[i-1].Balloons/2
	}
	for i := range balloons {
		b := &balloons[i]
		b.YMM += b.RadiusMM // the frame is within its balloons
		duplets := c.Digits[b.Cluster].Balloons / 2
		b.Cluster, b.Slot = before[b.Cluster]+b.Slot%duplets, b.Slot/duplets
	}
	return balloons
}
