package cargo

import "math"

// TightestBend is the smallest radius of a section's centre line, in
// thicknesses of the section: bent tighter, the balloons inside the bend are
// pushed out of place. Common practice, no source.
const TightestBend = 1.0

// A section is tried straight and bent to every radius of this row. The row is the same for every section and space, so
// that a larger space or a smaller section never fares worse; its steps cost at
// most half a percent of the longest section.
const (
	firstRadiusMM = 10.0
	radiusRatio   = 1.005
	radii         = 1_700 // up to 48 m
)

// LongestSectionMM is the longest section of the given thickness that the space
// takes, straight or bent (see [TightestBend]), in whole millimetres
// rounded down; 0 when it is too thick for the space. The door is not asked:
// a section goes through it end first.
func LongestSectionMM(space Space, acrossMM float64) (float64, error) {
	r, err := space.room()
	if err != nil {
		return 0, err
	}
	if err := checkMM("section's thickness", acrossMM, SmallestMM, LargestMM); err != nil {
		return 0, err
	}
	return r.longestMM(acrossMM), nil
}

func (r room) longestMM(acrossMM float64) float64 {
	if !fits(acrossMM, r.narrowestMM()) {
		return 0
	}
	longest := 0.0
	for _, f := range r.faces() {
		longest = math.Max(longest, math.Max(f.along, f.longestBent(acrossMM)))
	}
	return math.Floor(longest + 1e-6)
}

// SectionsPerTrip is how many sections of the given length and thickness the
// space takes at a time: side by side and in layers when straight, nested and
// in layers when bent. 0 when not even one goes in.
func SectionsPerTrip(space Space, lengthMM, acrossMM float64) (int, error) {
	r, err := space.room()
	if err != nil {
		return 0, err
	}
	if err := checkMM("section's length", lengthMM, SmallestMM, LargestLengthMM); err != nil {
		return 0, err
	}
	if err := checkMM("section's thickness", acrossMM, SmallestMM, LargestMM); err != nil {
		return 0, err
	}
	return r.sectionsPerTrip(lengthMM, acrossMM), nil
}

func (r room) sectionsPerTrip(lengthMM, acrossMM float64) int {
	if !fits(acrossMM, r.narrowestMM()) {
		return 0
	}
	most := 0
	for _, f := range r.faces() {
		most = max(most, whole(f.deep/acrossMM)*f.count(lengthMM, acrossMM))
	}
	if most == 0 {
		return 0
	}
	return max(1, whole(float64(most)*r.usable))
}

// face is a side of the room in which a section lies: its ends apart in along,
// its bulge in across, layers of them stacked in deep.
type face struct{ along, across, deep float64 }

func (r room) faces() [6]face {
	a, b, c := r.sides[0], r.sides[1], r.sides[2]
	return [6]face{{a, b, c}, {b, a, c}, {a, c, b}, {c, a, b}, {b, c, a}, {c, b, a}}
}

func fits(mm, spaceMM float64) bool { return mm <= spaceMM*(1+wholeTolerance) }

func whole(count float64) int { return int(math.Floor(count + wholeTolerance)) }

// count is how many sections lie in one layer. Where they lie straight, bending
// them gains nothing; slantwise reaches less far than bent.
func (f face) count(lengthMM, acrossMM float64) int {
	if straight := whole(f.along/lengthMM) * whole(f.across/acrossMM); straight > 0 {
		return straight
	}
	return f.bent(lengthMM, acrossMM)
}

// bent is how many sections of the best radius nest in the face. Two equal arcs
// pushed into each other keep their thickness apart when they are shifted by
// thickness / cos(half angle): along their radii they are then nowhere closer.
func (f face) bent(lengthMM, acrossMM float64) int {
	most := 0
	for radiusMM := range radiiFrom(acrossMM) {
		angle := lengthMM / radiusMM
		if angle > math.Pi {
			continue
		}
		chordMM, bulgeMM := bentExtent(radiusMM, angle, acrossMM)
		if !fits(chordMM, f.along) || !fits(bulgeMM, f.across) {
			continue
		}
		most = max(most, 1+whole(math.Max(0, f.across-bulgeMM)*math.Cos(angle/2)/acrossMM))
	}
	return most
}

// bentExtent is the rectangle round a bent tube: across its ends, and from its
// ends to the top of its bulge. The angle is at most a half turn.
func bentExtent(radiusMM, angle, acrossMM float64) (chordMM, bulgeMM float64) {
	sin, cos := math.Sincos(angle / 2)
	outer, inner := radiusMM+acrossMM/2, radiusMM-acrossMM/2
	return 2 * outer * sin, outer - float64(inner*cos)
}

// longestBent is the longest bent tube over all radii: for each, the largest
// angle at which neither measure of bentExtent is exceeded.
func (f face) longestBent(acrossMM float64) float64 {
	longest := 0.0
	for radiusMM := range radiiFrom(acrossMM) {
		outer, inner := radiusMM+acrossMM/2, radiusMM-acrossMM/2
		half := math.Pi / 2
		if sin := f.along / (2 * outer); sin < 1 {
			half = math.Asin(sin)
		}
		if cos := (outer - f.across) / inner; cos > 1 {
			continue
		} else if cos > 0 {
			half = math.Min(half, math.Acos(cos))
		}
		longest = math.Max(longest, 2*half*radiusMM)
	}
	return longest
}

// radiiFrom are the radii of the row that a section of the thickness may take.
func radiiFrom(acrossMM float64) func(yield func(float64) bool) {
	return func(yield func(float64) bool) {
		radiusMM := firstRadiusMM
		for range radii {
			if radiusMM >= TightestBend*acrossMM && !yield(radiusMM) {
				return
			}
			radiusMM *= radiusRatio
		}
	}
}
