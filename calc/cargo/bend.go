package cargo

import "math"

// TightestBend is the smallest radius of a section's centre line, in thicknesses of the section. A tighter bend pushes
// the inner balloons out of place. Common practice, no source.
const TightestBend = 1.0

// A section is tried straight and bent to every radius of this series. All sections and spaces use the same series, so
// that a larger space or a smaller section never gives a shorter result. Its steps cost at most half a percent of the
// longest section.
const (
	firstRadiusMM = 10.0
	radiusRatio   = 1.005
	radii         = 1_700 // up to 48 m
)

// LongestSectionMM returns the longest section of the given thickness that fits the space, straight or bent (see
// [TightestBend]), in whole millimetres rounded down. It is 0 if the section is too thick for the space or for the
// door, which it goes through end first.
func LongestSectionMM(space Space, acrossMM float64) (float64, error) {
	r, err := space.room()
	if err != nil {
		return 0, err
	}
	if err := checkMM("section's thickness", acrossMM, SmallestMM, LargestMM); err != nil {
		return 0, err
	}
	if !fits(acrossMM, r.doorMM) {
		return 0, nil
	}
	return r.longestMM(acrossMM), nil
}

func (r room) longestMM(acrossMM float64) float64 {
	if !fits(acrossMM, r.narrowestMM()) {
		return 0
	}
	longest := math.Max(r.sides[0], math.Max(r.sides[1], r.sides[2]))
	for _, f := range r.faces() {
		longest = f.longestBent(acrossMM, longest)
	}
	return math.Floor(longest + 1e-6)
}

// face is a side of the room in which a section lies. The line between the section's ends runs along it; its bulge goes
// across.
type face struct{ along, across float64 }

func (r room) faces() [6]face {
	a, b, c := r.sides[0], r.sides[1], r.sides[2]
	return [6]face{{a, b}, {b, a}, {a, c}, {c, a}, {b, c}, {c, b}}
}

func fits(mm, spaceMM float64) bool { return mm <= spaceMM*(1+wholeTolerance) }

func whole(count float64) int { return int(math.Floor(count + wholeTolerance)) }

// longestBent returns the longest bent tube over all radii, or most if that is longer. For each radius it uses the
// largest angle at which neither its ends nor its bulge leave the face.
func (f face) longestBent(acrossMM, most float64) float64 {
	least := TightestBend * acrossMM
	return best(0, radii, most, func(fromMM, toMM float64) float64 {
		if toMM < least {
			return 0
		}
		fromMM = math.Max(fromMM, least)
		half, reach := math.Pi/2, math.Inf(1)
		if sin := f.along / (float64(2*fromMM) + acrossMM); sin < 1 {
			half = math.Asin(sin)
			// asin x is at most x + (pi/2 - 1) x³, which separates flat bends from straight ones.
			reach = f.along * toMM / (toMM + acrossMM/2) * (1 + float64(0.571*sin*sin))
		}
		if cos := (fromMM + acrossMM/2 - f.across) / (fromMM - acrossMM/2); cos > 1 {
			return 0
		} else if cos > 0 {
			half = math.Min(half, math.Acos(cos))
		}
		return math.Min(reach, 2*half*toMM)
	})
}

// best returns the largest worth of a radius with index first <= i < last, or most if that is larger. worth of two
// radii must be at least the worth of any between them, and that of the radius if both are equal. It skips halves that
// cannot be better.
func best(first, last int, most float64, worth func(fromMM, toMM float64) float64) float64 {
	value := worth(radiusMM(first), radiusMM(last-1))
	if value <= most {
		return most
	}
	if last-first == 1 {
		return value
	}
	middle := (first + last) / 2
	return best(first, middle, best(middle, last, most, worth), worth)
}

// radiusMM returns a radius of the series, counted from 0.
func radiusMM(place int) float64 {
	radius := firstRadiusMM
	for power := radiusRatio; place > 0; place >>= 1 {
		if place&1 == 1 {
			radius *= power
		}
		power *= power
	}
	return radius
}
