package plan

import (
	"strconv"

	"garlandry/app/job"
)

// numbersKind is a frame in the shape of digits, filled with balloons of one size.
func numbersKind() kind { return kind{job.Numbers, (*draft).numbers} }

// strokes says which bars of a seven-bar digit are lit: how many lie and how many stand.
func strokes(digit rune) (lying, standing int, known bool) {
	switch digit {
	case '0':
		return 2, 4, true
	case '1':
		return 0, 2, true
	case '2', '3', '5':
		return 3, 2, true
	case '4':
		return 1, 3, true
	case '6', '9':
		return 3, 3, true
	case '7':
		return 1, 2, true
	}
	return 3, 4, digit == '8'
}

// digitArea is the filled area of a digit as a share of its height squared: seven bars of one stroke that meet at the
// corners, which are counted once.
func digitArea(digit rune, width, stroke float64) float64 {
	lying, standing, _ := strokes(digit)
	if lying == 0 {
		return stroke // one upright bar over the whole height
	}
	inner := max(0, width-2*stroke)
	upright := max(0, (1-3*stroke)/2)
	corners := float64(lying) * 2
	return float64(float64(lying)*float64(inner*stroke)) + float64(float64(standing)*float64(upright*stroke)) + float64(corners*float64(stroke*stroke))
}

func (d *draft) numbers(c *counted) {
	p := c.Piece
	c.highMM = p.HeightMM
	toIn := d.sizedTo(p)
	diameterMM := float64(toIn * 25.4)
	if !(p.HeightMM > 0) || !(diameterMM > 0) {
		d.warn(p.ID, p.Name+": no height or no balloon size yet, so nothing is counted.")
		return
	}
	width, stroke, pressed := d.figures.row("number/width"), d.figures.row("number/stroke"), d.figures.row("number/pressed")
	apart := float64(diameterMM * pressed.Value)
	digits, duplets := 0, 0
	for _, r := range p.Digits {
		if r == ' ' {
			continue
		}
		if _, _, known := strokes(r); !known {
			d.inform(p.ID, "“"+string(r)+"” of "+p.Name+" is not a digit; it is counted like an 8, the fullest one.")
		}
		area := float64(digitArea(r, width.Value, stroke.Value) * float64(p.HeightMM*p.HeightMM))
		n := up(area / float64(2*float64(apart*apart)))
		c.line("Digit "+string(r), "its area over what a balloon covers", count(2*n, "balloon"), stroke.Source)
		digits++
		duplets += n
	}
	if digits == 0 {
		d.warn(p.ID, p.Name+": no digits yet, so nothing is counted.")
		return
	}
	d.one(c, p.SizeIn, toIn, 2*duplets)
	c.addDuplets(duplets, p.SizeIn, toIn, false)
	tie := d.figures.row("ties/number")
	ties := up(float64(float64(c.Balloons) * tie.Value))
	c.Ties += ties
	c.line("Balloons", strconv.Itoa(duplets)+" duplets", count(c.Balloons, "balloon"), arithmetic())
	c.line("Ties", count(c.Balloons, "balloon")+" x "+number(tie.Value), count(ties, "tie"), tie.Source)
	c.make = batch{duplets, "duplet", "duplets"}
	c.fix = batch{digits, "digit", "digits"}
}
