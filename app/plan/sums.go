package plan

// any reports whether any piece answers.
func (d *Draft) any(is func(c *counted) bool) bool {
	for _, c := range d.pieces {
		if is(c) {
			return true
		}
	}
	return false
}

// sum adds up over the pieces.
func (d *Draft) sum(of func(c *counted) int) int {
	total := 0
	for _, c := range d.pieces {
		total += of(c)
	}
	return total
}

func (d *Draft) anyBalloon() bool { return len(d.Balloons) > 0 }

func (d *Draft) anyPiece() bool { return len(d.pieces) > 0 }

// kitOf counts what the kit holds of a kind.
func (d *Draft) kitOf(kind string) int {
	n := 0
	for _, k := range d.job.Kit {
		if k.Kind == kind {
			n += k.Count
		}
	}
	return n
}
