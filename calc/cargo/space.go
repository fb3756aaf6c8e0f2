package cargo

import (
	"errors"
	"fmt"
	"math"
)

// Limits of the inputs.
const (
	SmallestMM      = 10.0    // of a ball, a door or a section
	SmallestSpaceMM = 100.0   // of a space
	LargestMM       = 20_000  // of a space, a ball or a section's thickness
	LargestLengthMM = 1e6     // of a section
	LargestLitres   = 200_000 // of a space: an articulated lorry and more
	LargestCount    = 100_000 // of one kind of thing
	MostKinds       = 100     // of things in one load
	LargestSqueeze  = 30.0    // percent
	LeastPacking    = 0.1     // of the space
	SmallestAirL    = 0.001   // in one ball, cluster or section
	LargestAirL     = 1e7
)

// CommonSqueezePct is how much thinner soft work may be pressed, in percent, while it goes through a door or into a
// space. Common practice, no source.
const CommonSqueezePct = 10.0

// CommonPacking is the part of a car that the balloons of clusters and sections fill. It is engineering judgement:
// random packings of balls fill from 0.555 (loosest; Onoda & Liniger 1990, from memory) to 0.64 (closest; Berryman
// 1983), and the walls of a car keep a load near the loosest.
const CommonPacking = 0.55

// CommonPackingMark says how far to trust CommonPacking: it is a judgement, neither measured nor a rule of the trade.
const CommonPackingMark = "from memory"

// MostPacking is the densest random packing of balls. Nothing here fills more of a space with balloons: J. G. Berryman,
// "Random close packing of hard spheres and disks", Physical Review A 27 (1983) 1053, 0.64 ± 0.02.
const MostPacking = 0.64

// Reasons why a load cannot be computed, for errors.Is. The error's text names the input, the value and the allowed
// range.
var (
	ErrMeasure = errors.New("measure out of range")
	ErrNoSpace = errors.New("no space given")
	ErrCount   = errors.New("count out of range")
)

// Space is the room for cargo: its inner length, width and height in millimetres (all three), its litres, or both. With
// both the smaller volume counts, so that wheel arches can be subtracted. With litres alone it is treated as a cube,
// which is cautious about long sections; with a measured length the answer is better. The door is the largest opening;
// a door measure of 0 means that the opening is at least as wide as the space.
type Space struct {
	LengthMM     float64 `json:"length_mm"`
	WidthMM      float64 `json:"width_mm"`
	HeightMM     float64 `json:"height_mm"`
	Litres       float64 `json:"litres"`
	DoorWidthMM  float64 `json:"door_width_mm"`
	DoorHeightMM float64 `json:"door_height_mm"`
}

// room is a checked space: a box, its usable part, and the smaller measure of the door.
type room struct {
	sides  [3]float64
	usable float64 // 0 to 1
	doorMM float64
}

func (s Space) room() (room, error) {
	if err := s.check(); err != nil {
		return room{}, err
	}
	r := room{sides: [3]float64{s.LengthMM, s.WidthMM, s.HeightMM}, usable: 1}
	if s.LengthMM == 0 {
		side := math.Cbrt(s.Litres * mm3PerLitre)
		r.sides = [3]float64{side, side, side}
	} else if s.Litres > 0 {
		r.usable = math.Min(1, s.Litres/r.boxLitres())
	}
	r.doorMM = math.Inf(1)
	for _, doorMM := range [2]float64{s.DoorWidthMM, s.DoorHeightMM} {
		if doorMM > 0 {
			r.doorMM = math.Min(r.doorMM, doorMM)
		}
	}
	return r, nil
}

func (s Space) check() error {
	for _, side := range [...]struct {
		name         string
		mm, smallest float64
	}{
		{"length", s.LengthMM, SmallestSpaceMM},
		{"width", s.WidthMM, SmallestSpaceMM},
		{"height", s.HeightMM, SmallestSpaceMM},
		{"door width", s.DoorWidthMM, SmallestMM},
		{"door height", s.DoorHeightMM, SmallestMM},
	} {
		if side.mm == 0 {
			continue
		}
		if err := checkMM("space's "+side.name, side.mm, side.smallest, LargestMM); err != nil {
			return err
		}
	}
	if !(s.Litres >= 0 && s.Litres <= LargestLitres) || s.Litres > 0 && s.Litres < 1 {
		return fmt.Errorf("space of %g litres: %w, 1 to %d", s.Litres, ErrMeasure, LargestLitres)
	}
	given := 0
	for _, sideMM := range [3]float64{s.LengthMM, s.WidthMM, s.HeightMM} {
		if sideMM > 0 {
			given++
		}
	}
	if given == 0 && s.Litres == 0 || given != 0 && given != 3 {
		return fmt.Errorf("space of %g x %g x %g mm: %w, its length, width and height or its litres", s.LengthMM, s.WidthMM,
			s.HeightMM, ErrNoSpace)
	}
	return nil
}

func checkMM(name string, mm, smallest, largest float64) error {
	if !(mm >= smallest && mm <= largest) {
		return fmt.Errorf("%s of %g mm: %w, %g to %g mm", name, mm, ErrMeasure, smallest, largest)
	}
	return nil
}

const mm3PerLitre = 1e6

func (r room) boxLitres() float64 {
	return r.sides[0] * r.sides[1] * r.sides[2] / mm3PerLitre
}

func (r room) litres() float64 { return r.boxLitres() * r.usable }

func (r room) narrowestMM() float64 {
	return math.Min(r.sides[0], math.Min(r.sides[1], r.sides[2]))
}
