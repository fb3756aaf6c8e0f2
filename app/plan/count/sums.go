package count

// Any reports whether any piece answers.
func (d *Draft) Any(is func(c *Counted) bool) bool {
	for _, c := range d.Pieces {
		if is(c) {
			return true
		}
	}
	return false
}

// Sum adds up over the pieces.
func (d *Draft) Sum(of func(c *Counted) int) int {
	total := 0
	for _, c := range d.Pieces {
		total += of(c)
	}
	return total
}

func (d *Draft) AnyBalloon() bool { return len(d.Balloons) > 0 }

func (d *Draft) AnyPiece() bool { return len(d.Pieces) > 0 }

// KitOf counts what the kit holds of a kind.
func (d *Draft) KitOf(kind string) int {
	n := 0
	for _, k := range d.Job.Kit {
		if k.Kind == kind {
			n += k.Count
		}
	}
	return n
}
