package table

import (
	"math"

	"garlandry/calc/nest"
)

// Curves of two sizes are written one byte a figure, all first figures before all
// second ones, because like compresses with like: how much smaller the ball is than
// that of one size; the pitch at the lightest push and by how much it falls from
// push to push; how much thicker the girth gets besides what the falling pitch
// lets one expect; by how much more shows through, at some of the pushes.
const (
	ballUnit  = 256
	ballShift = 64
	pitchUnit = 128
	firstUnit = pitchUnit / 2 // of the pitch at the lightest push
	girthUnit = 64
	girthNil  = 2 * girthUnit // what the girth at the lightest push is counted from
	coverUnit = 90            // of the root of what shows through: the less shows, the finer
	middle    = 128

	pitchAt     = 1
	girthAt     = pitchAt + nest.Points
	coverAt     = girthAt + nest.Points
	packedWidth = coverAt + len(coverPushes)
)

// The pushes, by number, at which some figures are written; between them they are
// straight.
var (
	coverPushes       = [...]int{0, 1, 2, 4, 5, 7, nest.Points - 1}
	factorPushes      = [...]int{0, 2, 4, 6, 8, nest.Points - 1}
	girthFactorPushes = [...]int{0, 4, 6, nest.Points - 1}
)

// straighten fills in what lies between some of the pushes.
func straighten(figures *[nest.Points]float64, pushes []int) {
	for k := 1; k < len(pushes); k++ {
		from, to := pushes[k-1], pushes[k]
		for i := from + 1; i < to; i++ {
			figures[i] = figures[from] + float64((figures[to]-figures[from])*float64(i-from)/float64(to-from))
		}
	}
}

// thicker is by how many units the girth grows while the pitch falls: half of it,
// about what clusters do that keep their volume.
func thicker(fall int) int { return fall * girthUnit / (2 * pitchUnit) }

// Pack writes curves of two sizes, each beside the ball of one size with as many
// duplets.
func Pack(curves []nest.Curve, balls []float64) string {
	rows := len(curves)
	text := make([]byte, packedWidth*rows)
	for row := range curves {
		c := &curves[row]
		put := func(column, number int) int {
			number = min(max(number, 0), math.MaxUint8)
			text[column*rows+row] = byte(number)
			return number
		}
		put(0, whole((balls[row]-c.Ball)*ballUnit)+ballShift)
		pitch := put(pitchAt, whole(c.Pitch[0]*firstUnit)) * pitchUnit / firstUnit
		girth := girthNil + put(girthAt, whole(c.Girth[0]*girthUnit)-girthNil+middle) - middle
		for i := 1; i < nest.Points; i++ {
			fall := put(pitchAt+i, pitch-whole(c.Pitch[i]*pitchUnit))
			pitch -= fall
			girth += thicker(fall)
			girth += put(girthAt+i, whole(c.Girth[i]*girthUnit)-girth+middle) - middle
		}
		shows := 0
		for i, push := range coverPushes {
			root := math.Sqrt(max(1-c.Coverage[push], 0)) * coverUnit
			shows += put(coverAt+i, whole(root)-shows+middle) - middle
		}
	}
	return string(text)
}

// unpack reads a row of what Pack writes.
func unpack(text string, row int, ball float64) nest.Curve {
	rows := len(text) / packedWidth
	var c nest.Curve
	c.Ball = ball - float64(int(text[row])-ballShift)/ballUnit
	pitch, girth := 0, girthNil
	for i := range nest.Points {
		fall := int(text[(pitchAt+i)*rows+row])
		if i == 0 {
			pitch = fall * (pitchUnit / firstUnit)
		} else {
			pitch -= fall
			girth += thicker(fall)
		}
		girth += int(text[(girthAt+i)*rows+row]) - middle
		c.Pitch[i], c.Girth[i] = float64(pitch)/pitchUnit, float64(girth)/girthUnit
	}
	shows := 0
	for i, push := range coverPushes {
		shows += int(text[(coverAt+i)*rows+row]) - middle
		c.Coverage[push] = float64(shows) / coverUnit
	}
	straighten(&c.Coverage, coverPushes[:])
	for i, root := range c.Coverage {
		c.Coverage[i] = 1 - float64(root*root)
	}
	return c
}

// Factors are by what to multiply a stand-in's pitches and girths at each push.
type Factors struct{ Pitch, Girth [nest.Points]float64 }

// offUnit is the step in which factors are written.
const offUnit = 64

// PackFactors writes factors one byte each, all first ones before all second ones.
func PackFactors(rows []Factors) string {
	text := make([]byte, 0, (len(factorPushes)+len(girthFactorPushes))*len(rows))
	put := func(factor float64) {
		text = append(text, byte(min(max(whole((factor-1)*offUnit)+middle, 0), math.MaxUint8)))
	}
	for _, push := range factorPushes {
		for row := range rows {
			put(rows[row].Pitch[push])
		}
	}
	for _, push := range girthFactorPushes {
		for row := range rows {
			put(rows[row].Girth[push])
		}
	}
	return string(text)
}

// add adds a share of the factors of a row, less 1, at the pushes at which they are
// written.
func (f *Factors) add(text string, row int, share float64) {
	at := func(column int) float64 {
		return float64(share * float64(int(text[column*ThreeRows+row])-middle) / offUnit)
	}
	for column, push := range factorPushes {
		f.Pitch[push] += at(column)
	}
	for column, push := range girthFactorPushes {
		f.Girth[push] += at(len(factorPushes) + column)
	}
}

func whole(x float64) int { return int(math.Round(x)) }
