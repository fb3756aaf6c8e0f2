package rig

// bent is a bar under its loads: reactions and the constants of its elastic line, by superposition with Macaulay's
// brackets. Downward is positive.
type bent struct {
	bar          Bar
	loads        []force
	left, right  float64
	slope, start float64
	kinks        []kink
}

// force is a load in newton; width 0 is a point.
type force struct{ newton, from, width float64 }

// kink is a joint that has turned: the slope changes by turn at that place.
type kink struct{ at, turn float64 }

func (b Bar) bend(loads []Load) bent {
	e := bent{bar: b}
	for _, l := range loads {
		f := force{newton: WeightN(l.MassG), from: l.AtMM}
		if l.Spread {
			f.from, f.width = l.FromMM, l.ToMM-l.FromMM
		}
		e.loads = append(e.loads, f)
		share := f.newton * (f.from + f.width/2) / b.SpanMM
		e.right += share
		e.left += f.newton - share
	}
	// The dip is 0 at both posts.
	atLeft, atRight := e.raw(0), e.raw(b.SpanMM)
	e.slope = (atRight - atLeft) / b.SpanMM
	e.start = atLeft
	total := 0.0
	for _, f := range e.loads {
		total += f.newton
	}
	for _, j := range b.Joints {
		e.kinks = append(e.kinks, kink{j.AtMM, e.turn(j, 1e-9*total*b.SpanMM)})
	}
	return e
}

// turn returns the angle by which a joint opens, positive where it sags. If the moment is within rounding, the joint
// opens as under its own weight: sagging between the posts, hanging down on an overhang.
func (e bent) turn(j Joint, roundingNMM float64) float64 {
	moment := e.momentNMM(j.AtMM)
	between := j.AtMM >= 0 && j.AtMM <= e.bar.SpanMM
	if moment > roundingNMM || between && moment >= -roundingNMM {
		return j.PlayRad
	}
	return -j.PlayRad
}

// raw returns E I times the downward deflection, up to a linear term.
func (e bent) raw(x float64) float64 {
	sum := 0.0
	for _, f := range e.loads {
		if f.width == 0 {
			sum += f.newton * bracket(x-f.from, 3) / 6
			continue
		}
		rate := f.newton / f.width
		sum += rate * (bracket(x-f.from, 4) - bracket(x-f.from-f.width, 4)) / 24
	}
	return sum - e.left*bracket(x, 3)/6 - e.right*bracket(x-e.bar.SpanMM, 3)/6
}

// elasticMM returns the dip at x from bending alone.
func (e bent) elasticMM(x float64) float64 {
	return (e.raw(x) - e.start - float64(e.slope*x)) / e.bar.StiffnessNMM2
}

// playMM returns the dip at x from the joints alone.
func (e bent) playMM(x float64) float64 {
	span, sum := e.bar.SpanMM, 0.0
	for _, k := range e.kinks {
		bend := func(at float64) float64 { return -k.turn * bracket(at-k.at, 1) }
		atLeft := bend(0)
		sum += bend(x) - atLeft - (bend(span)-atLeft)*x/span
	}
	return sum
}

func (e bent) dipMM(x float64) float64 { return e.elasticMM(x) + e.playMM(x) }

// momentNMM returns the bending moment at x, positive where the bar sags.
func (e bent) momentNMM(x float64) float64 {
	sum := float64(e.left*bracket(x, 1)) + float64(e.right*bracket(x-e.bar.SpanMM, 1))
	for _, f := range e.loads {
		if f.width == 0 {
			sum -= float64(f.newton * bracket(x-f.from, 1))
			continue
		}
		sum -= f.newton / f.width * (bracket(x-f.from, 2) - bracket(x-f.from-f.width, 2)) / 2
	}
	return sum
}

// largest returns the maximum of a function between from and to. It searches a grid and then uses golden sections
// around the best point.
func largest(of func(float64) float64, from, to float64, steps int) (at, value float64) {
	at, value = from, of(from)
	width := (to - from) / float64(steps)
	for i := 1; i <= steps; i++ {
		x := from + float64(width*float64(i))
		if v := of(x); v > value {
			at, value = x, v
		}
	}
	low, high := max(from, at-width), min(to, at+width)
	const golden = 0.6180339887498949
	for range 60 {
		one, two := high-float64(golden*(high-low)), low+float64(golden*(high-low))
		if of(one) > of(two) {
			high = two
		} else {
			low = one
		}
	}
	if middle := (low + high) / 2; of(middle) > value {
		return middle, of(middle)
	}
	return at, value
}

// bracket is Macaulay's bracket: x to the power (1 to 4) if x is above 0, else 0.
func bracket(x float64, power int) float64 {
	if !(x > 0) {
		return 0
	}
	result := x
	for range power - 1 {
		result *= x
	}
	return result
}
