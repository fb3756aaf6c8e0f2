package count

import "garlandry/app/job"

// Any reports whether is holds for any piece.
func (d *Draft) Any(is func(c *Counted) bool) bool {
	for _, c := range d.Pieces {
		if is(c) {
			return true
		}
	}
	return false
}

// Sum adds up of over the pieces.
func (d *Draft) Sum(of func(c *Counted) int) int {
	total := 0
	for _, c := range d.Pieces {
		total += of(c)
	}
	return total
}

// AnyBalloon reports whether the job has balloons.
func (d *Draft) AnyBalloon() bool { return len(d.Balloons) > 0 }

// Travels reports whether things go to the venue by car. If not, the venue is where they are made.
func (d *Draft) Travels() bool { return Travels(d.Job) }

// Travels reports whether the things of a job go to the venue by car.
func Travels(j job.Job) bool { return j.Brief.Travel != "none" }

// AnyPiece reports whether the job has pieces.
func (d *Draft) AnyPiece() bool { return len(d.Pieces) > 0 }

// KitOf counts the kit items of a kind.
func (d *Draft) KitOf(kind string) int {
	n := 0
	for _, k := range d.Job.Kit {
		if k.Kind == kind {
			n += k.Count
		}
	}
	return n
}
