package latex

import (
	"fmt"
	"math"
)

// These are the constants of the Mooney-Rivlin law for balloon rubber: s+ and -s-, in pascal. Müller & Strehlow, Rubber
// and Rubber Balloons, Lecture Notes in Physics 637 (2004): 3 bar and 0.3 bar (book from memory, values seen in a
// public model).
const (
	MooneyPlusPa  = 300_000.0
	MooneyMinusPa = 30_000.0
	// RubberDensity is the density of natural rubber in g/cm³ (from memory).
	RubberDensity = 0.92
)

// Skin is the empty, unstretched balloon, modelled as a thin sphere of rubber. The zero Skin has no pressure, so the
// gas follows Charles's law.
type Skin struct {
	RadiusMM    float64
	ThicknessMM float64
	// PlusPa and MinusPa are the constants of the rubber; both 0 means
	// [MooneyPlusPa] and [MooneyMinusPa].
	PlusPa, MinusPa float64

	pear pear // the shape when nearly full; skins made by hand stay spheres
}

// Skin returns the skin of a round balloon of the size: radius from the full diameter and FullStretch, thickness from
// the latex mass spread evenly over the sphere. The neck counts as part of the sphere, so the pressure is a little
// high. Modelling balloons give the zero Skin.
func (s Size) Skin() Skin {
	if s.Modelling() || !(s.FullStretch > 0) {
		return Skin{}
	}
	radius := s.FullMM() / 2 / s.FullStretch
	cubicMM := s.LatexG / RubberDensity * 1000
	return Skin{RadiusMM: radius, ThicknessMM: cubicMM / (4 * math.Pi * radius * radius), pear: s.pear()}
}

// PressurePa returns the overpressure inside when the skin is inflated to the diameter:
//
//	p = 2 (thickness/radius) (1/L - 1/L⁷) (s+ - s- L²),  L = stretch
//
// This is the thin Mooney-Rivlin sphere after Rivlin (1952), in the form of Müller & Strehlow. It is 0 while the skin
// is slack (L <= 1) and for the zero Skin. Above a stretch of about 4 real rubber stiffens and the true pressure is
// higher.
func (k Skin) PressurePa(diameterMM float64) float64 {
	if !(k.RadiusMM > 0) {
		return 0
	}
	return k.scalePa() * k.shape(diameterMM/2/k.RadiusMM)
}

func (k Skin) scalePa() float64 {
	plus := k.PlusPa
	if plus == 0 && k.MinusPa == 0 {
		plus = MooneyPlusPa
	}
	return 2 * plus * k.ThicknessMM / k.RadiusMM
}

func (k Skin) shape(stretch float64) float64 {
	if !(stretch > 1) {
		return 0
	}
	ratio := MooneyMinusPa / MooneyPlusPa
	if k.PlusPa != 0 {
		ratio = k.MinusPa / k.PlusPa
	}
	square := stretch * stretch
	return (1 - 1/(square*square*square)) / stretch * (1 + float64(ratio*square))
}

func (k Skin) check() error {
	switch {
	case k == Skin{}:
		return nil
	case !(k.RadiusMM >= 1 && k.RadiusMM <= 1000), !(k.ThicknessMM >= 0 && k.ThicknessMM <= 5):
		return fmt.Errorf("%w: empty skin of radius %.4g mm and thickness %.4g mm, accepted are 1 to 1000 mm and 0 to 5 mm",
			ErrInput, k.RadiusMM, k.ThicknessMM)
	case !(k.PlusPa >= 0 && k.PlusPa <= 1e7), !(k.MinusPa >= 0 && k.MinusPa <= 1e7), k.PlusPa == 0 && k.MinusPa > 0:
		return fmt.Errorf("%w: rubber constants %.4g and %.4g Pa, accepted are 0 to 1e7 Pa, the second 0 where the first is",
			ErrInput, k.PlusPa, k.MinusPa)
	}
	return nil
}
