package latex

import "slices"

// Marks say how far a figure can be trusted.
const (
	MarkPublished      = "published"
	MarkCommonPractice = "common practice"
	MarkFromMemory     = "from memory"
	// MarkScaled is for figures that start from common practice and are
	// carried to other sizes by physics.
	MarkScaled = "common practice scaled"
)

// MMPerInch is the international inch in millimetres, exact.
const MMPerInch = 25.4

// Size is one row of the table of balloon sizes. Lengths are inches because
// that is how balloons are sold everywhere. The zero value is no size.
type Size struct {
	// NominalIn is the name of the size: 5 to 36 for round balloons, 160, 260
	// or 350 for modelling balloons.
	NominalIn int
	// TwinIn is the near size that is used in its place (9 and 10, 11 and 12, 16
	// and 18), 0 where there is none.
	TwinIn int
	// DecorMinIn, DecorToIn and DecorMaxIn are the least, usual and greatest
	// diameter to which it is sized for décor. All 0 for modelling balloons.
	DecorMinIn, DecorToIn, DecorMaxIn float64
	// FullIn is the diameter at which it is full; for modelling balloons the
	// width when inflated.
	FullIn float64
	// LengthIn is the inflated length of a modelling balloon, 0 for round ones.
	LengthIn float64
	// LatexG is the mass of the empty balloon in grams. Weigh ten to replace it.
	LatexG float64
	// FullStretch is how many times wider the skin is when full than when
	// empty. 0 for modelling balloons.
	FullStretch float64
	// BagsOf lists the usual bag sizes, smallest first.
	BagsOf []int
	// Use says in a few words what the size is for.
	Use string
	// Mark says where the diameters and masses come from, StretchMark where
	// FullStretch does.
	Mark, StretchMark string
}

// Sizes returns the whole table in a fresh slice: round balloons by rising
// size, then modelling balloons. Twins (11 and 12) have a row each.
func Sizes() []Size {
	const cp, fm = MarkCommonPractice, MarkFromMemory
	round := func(nominal, twin int, lowest, usual, most, full, grams, stretch float64, use string, bags ...int) Size {
		return Size{
			NominalIn: nominal, TwinIn: twin,
			DecorMinIn: lowest, DecorToIn: usual, DecorMaxIn: most, FullIn: full,
			LatexG: grams, FullStretch: stretch, BagsOf: bags, Use: use,
			Mark: cp, StretchMark: fm,
		}
	}
	long := func(nominal int, width, length, grams float64, mark string) Size {
		return Size{
			NominalIn: nominal, FullIn: width, LengthIn: length, LatexG: grams,
			BagsOf: []int{50, 100}, Use: "ties, twisted shapes", Mark: mark,
		}
	}
	return []Size{
		round(5, 0, 4, 4.5, 4.5, 5, 1.0, 3.5, "accents, fillers", 50, 100),
		round(9, 10, 8, 8, 8.5, 9, 2.0, 4, "slim garlands, columns", 50, 100),
		round(10, 9, 8, 9, 9, 10, 2.0, 4, "slim garlands, columns", 50, 100),
		round(11, 12, 9, 10, 10.5, 11, 2.9, 4, "the workhorse", 25, 50, 100),
		round(12, 11, 9, 10, 11, 12, 2.9, 4, "the workhorse", 25, 50, 100),
		round(16, 18, 14, 14, 15, 16, 7, 4, "body, focal points", 25, 50),
		round(18, 16, 14, 16, 16.5, 17, 9, 4, "body, focal points", 25, 50),
		round(24, 0, 20, 22, 23, 24, 18, 4, "focal points", 5, 10, 25),
		round(36, 0, 30, 33, 35, 36, 45, 4, "focal points", 1, 2, 5),
		// Only the 260 has a remembered mass; the others have the same skin,
		// so mass goes with width times length.
		long(160, 1, 60, 0.75, MarkScaled),
		long(260, 2, 60, 1.5, cp),
		long(350, 3, 50, 1.875, MarkScaled),
	}
}

// Find returns the row of the size called nominalIn; false when there is none.
func Find(nominalIn int) (Size, bool) {
	rows := Sizes()
	at := slices.IndexFunc(rows, func(s Size) bool { return s.NominalIn == nominalIn })
	if at < 0 {
		return Size{}, false
	}
	return rows[at], true
}

// Modelling reports whether the size is a long balloon for ties and twisting.
func (s Size) Modelling() bool { return s.LengthIn > 0 }

// FullMM is the diameter (for modelling balloons the width) when full.
func (s Size) FullMM() float64 { return s.FullIn * MMPerInch }

// DecorToMM is the usual diameter for décor; 0 for modelling balloons.
func (s Size) DecorToMM() float64 { return s.DecorToIn * MMPerInch }
