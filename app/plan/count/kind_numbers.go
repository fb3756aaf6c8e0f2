package count

import (
	"strconv"

	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/calc/picture"
)

// numbers is a frame in the shape of digits, filled with balloons of one size.
func init() {
	register(Kind{
		Name:     "numbers",
		Teach:    "Figures as frames filled with small balloons.",
		Measures: []string{"digits", "height_mm", "size_in", "to_in"},
		Needed:   []string{"digits", "height_mm", "size_in"},
		Build:    []string{"frame", "colours"},
		More:     []string{"priority", "built", "ahead", "notes"},
		Begin:    Begin{Name: "Number frame", SizeIn: 5},
		Starts: []Start{{Key: "numbers", Picture: numbersPicture,
			Label: "Number", Ask: "which digits", One: "number", Metric: "18",
			Imperial: "18", Fields: []string{"digits"}, With: map[string]any{"height_mm": 1200},
			Feet: map[string]any{"height_mm": 1219.2}}},
		Form:        Pressed,
		Count:       (*Draft).numbers,
		StandsAlone: true,
		Stand:       "digits",
		Work:        "fix",
		PutUp: func(_ *Draft, c *Counted) PutUp {
			return PutUp{
				Steps: []string{
					"Press the duplets in from behind: the edge first, then the middle. Mix the colours.",
					"Fill gaps with single, softer balloons.",
				},
				First: "Put each digit's frame together and stand it where people will see it.",
				Last:  "Take the frames apart. Weights come last.",
				Row:   "fix-cluster", Times: float64(c.Balloons) / 4, Most: Around}
		},
	})
}

// The bars of a digit, as on a seven-bar display.
const (
	barTop = 1 << iota
	barUpperLeft
	barUpperRight
	barMiddle
	barLowerLeft
	barLowerRight
	barBottom
	barsAll = 1<<7 - 1
)

// bars returns which bars of a digit are filled.
func bars(digit rune) int {
	return [...]int{
		barsAll &^ barMiddle,
		barUpperRight | barLowerRight,
		barsAll &^ (barUpperLeft | barLowerRight),
		barsAll &^ (barUpperLeft | barLowerLeft),
		barUpperLeft | barMiddle | barUpperRight | barLowerRight,
		barsAll &^ (barUpperRight | barLowerLeft),
		barsAll &^ barUpperRight,
		barTop | barUpperRight | barLowerRight,
		barsAll,
		barsAll &^ barLowerLeft,
	}[digit-'0']
}

// digitParts returns the filled parts of a digit of the height: its bars between the six joints, and once each joint
// that a filled bar touches. Its lower left corner is at leftMM and the floor; widthMM and strokeMM are those of the
// digit and its bars. What is filled of an upright stroke without a break is one part.
func digitParts(digit rune, leftMM, heightMM, widthMM, strokeMM float64) []picture.Rectangle {
	lit := bars(digit)
	standing := max(0, (heightMM-float64(3*strokeMM))/2)
	var parts []picture.Rectangle
	for _, stroke := range []struct {
		x     float64
		cells [5]int // bars of which one fills the cell, from below
	}{
		{leftMM, [5]int{barBottom | barLowerLeft, barLowerLeft, barUpperLeft | barMiddle | barLowerLeft, barUpperLeft,
			barTop | barUpperLeft}},
		{leftMM + max(0, widthMM-strokeMM), [5]int{barBottom | barLowerRight, barLowerRight,
			barUpperRight | barMiddle | barLowerRight, barUpperRight, barTop | barUpperRight}},
	} {
		y, before := 0.0, false
		for i, cell := range stroke.cells {
			high := strokeMM
			if i%2 == 1 {
				high = standing
			}
			switch filled := lit&cell != 0; {
			case filled && before:
				parts[len(parts)-1].HighMM += high
			case filled:
				parts = append(parts, picture.Rectangle{LeftMM: stroke.x, BottomMM: y, WideMM: strokeMM, HighMM: high})
				before = true
			default:
				before = false
			}
			y += high
		}
	}
	for i, bar := range [...]int{barBottom, barMiddle, barTop} {
		if lit&bar != 0 {
			parts = append(parts, picture.Rectangle{LeftMM: leftMM + strokeMM,
				BottomMM: float64(float64(i) * (strokeMM + standing)),
				WideMM:   max(0, widthMM-float64(2*strokeMM)), HighMM: strokeMM})
		}
	}
	return parts
}

// digitGap is the gap between two digits, as a share of their width. From memory.
const digitGap = 0.3

func (d *Draft) numbers(c *Counted) {
	p := c.Piece
	c.HighMM = p.HeightMM
	toIn := d.sizedTo(p)
	diameterMM := float64(toIn * 25.4)
	if !(p.HeightMM > 0) || !(diameterMM > 0) {
		d.Warn(p.ID, p.Name+": no height or no balloon size yet, so nothing is counted.")
		return
	}
	width, stroke := d.Figures.Row("number/width"), d.Figures.Row("number/stroke")
	pressed := d.Figures.Row("number/pressed")
	apart := float64(diameterMM * pressed.Value)
	digits, duplets := 0, 0
	for _, r := range p.Digits {
		if r < '0' || r > '9' {
			continue
		}
		wide, area := float64(width.Value*p.HeightMM), 0.0
		parts := digitParts(r, float64(float64(digits)*wide*(1+digitGap)), p.HeightMM, wide, float64(stroke.Value*p.HeightMM))
		for _, part := range parts {
			area += float64(part.WideMM * part.HighMM)
		}
		n := figures.RoundUp(area / float64(2*float64(apart*apart)))
		c.line("Digit "+string(r), "its area over what a balloon covers", phrase.Count(2*n, "balloon"), stroke.Source)
		digits++
		duplets += n
		c.Digits = append(c.Digits, picture.Digit{Bars: parts, Balloons: 2 * n})
	}
	if digits == 0 {
		d.Warn(p.ID, p.Name+": no digits yet, so nothing is counted.")
		return
	}
	d.one(c, p.SizeIn, toIn, 2*duplets)
	c.addDuplets(duplets, p.SizeIn, toIn, nil)
	tie := d.Figures.Row("ties/number")
	ties := figures.RoundUp(float64(float64(c.Balloons) * tie.Value))
	c.Ties += ties
	c.line("Balloons", strconv.Itoa(duplets)+" duplets", phrase.Count(c.Balloons, "balloon"), figures.Arithmetic())
	c.line("Ties", phrase.Count(c.Balloons, "balloon")+" x "+phrase.Number(tie.Value), phrase.Count(ties, "tie"),
		tie.Source)
	c.layBunches(duplets, 2)
	c.Make = Batch{duplets, "duplet", "duplets"}
	c.Fix = Batch{digits, "digit", "digits"}
}

// numbersPicture was drawn by hand.
var numbersPicture = Picture{"", []float64{
	22, 5, 3.6, 22, 12, 3.6, 22, 19, 3.6, 22, 26, 3.6, 22, 33, 3.6, 22, 41, 3.6, 16, 9, 3.6, 45, 5, 3.6, 38, 9,
	3.6, 52, 9, 3.6, 38, 17, 3.6, 52, 17, 3.6, 45, 22, 3.6, 37, 28, 3.6, 53, 28, 3.6, 37, 36, 3.6, 53, 36, 3.6,
	45, 41, 3.6,
}}
