package latex

// Marks say how far a figure can be trusted.
const (
	MarkPublished      = "published"
	MarkCommonPractice = "common practice"
	MarkFromMemory     = "from memory"
	// MarkScaled is for figures that start from common practice and are scaled to other sizes by physics.
	MarkScaled = "common practice scaled"
)

// MMPerInch is the international inch in millimetres, exact.
const MMPerInch = 25.4

// LitresPerCuFt is the cubic foot of the international foot in litres, exact.
const LitresPerCuFt = 28.316846592

// Size is one row of the table of balloon sizes. Lengths are inches, because balloons are sold by the inch everywhere.
// The zero value is no size.
type Size struct {
	// NominalIn is the name of the size: 5 to 36 for round balloons, 160, 260
	// or 350 for modelling balloons.
	NominalIn int
	// TwinIn is a near size used in its place (9 and 10, 11 and 12, 16 and 18), 0 if there is none.
	TwinIn int
	// DecorMinIn, DecorToIn and DecorMaxIn are the least, usual and greatest diameter for décor. All are 0 for
	// modelling balloons.
	DecorMinIn, DecorToIn, DecorMaxIn float64
	// FullIn is the diameter when full, which is the nominal one for round balloons; for modelling balloons the width
	// when inflated.
	FullIn float64
	// FullL is the gas that a round balloon holds when full, in litres. Helium charts of suppliers give it in cubic
	// feet, roughly rounded; sizes that are not on them hold about a fifth more than a sphere. FullLMark is its mark.
	FullL     float64
	FullLMark string
	// OwnGas multiplies the gas at every diameter, for balloons that were measured; 0 means 1.
	OwnGas float64
	// LengthIn is the inflated length of a modelling balloon, 0 for round ones.
	LengthIn float64
	// LatexG is the mass of the empty balloon in grams. To replace it, weigh ten.
	LatexG float64
	// FullStretch is the diameter when full divided by that when empty; 0 for modelling balloons.
	FullStretch float64
	// BagsOf lists the usual bag sizes, smallest first.
	BagsOf []int
	// Use is a short text of what the size is for.
	Use string
	// Mark gives the source of the diameters and masses, StretchMark that of FullStretch.
	Mark, StretchMark string
}

// Sizes returns the whole table in a new slice: round balloons by rising size, then modelling balloons. Twins (11 and
// 12) have a row each. The lists of bags are shared and must not be changed.
func Sizes() []Size { return append([]Size(nil), sizes[:]...) }

var sizes = [...]Size{
	{
		NominalIn: 5, DecorMinIn: 4, DecorToIn: 4.5, DecorMaxIn: 4.5, FullIn: 5, LatexG: 1.0, FullStretch: 3.5,
		BagsOf: []int{50, 100}, Use: "accents, fillers", Mark: MarkCommonPractice,
		FullL: 1.1, FullLMark: MarkFromMemory, StretchMark: MarkFromMemory,
	},
	{
		NominalIn: 9, TwinIn: 10, DecorMinIn: 8, DecorToIn: 8, DecorMaxIn: 8.5, FullIn: 9, LatexG: 2.0, FullStretch: 4,
		BagsOf: []int{50, 100}, Use: "slim garlands, columns", Mark: MarkCommonPractice,
		FullL: 0.25 * LitresPerCuFt, FullLMark: MarkCommonPractice, StretchMark: MarkFromMemory,
	},
	{
		NominalIn: 10, TwinIn: 9, DecorMinIn: 8, DecorToIn: 9, DecorMaxIn: 9, FullIn: 10, LatexG: 2.0, FullStretch: 4,
		BagsOf: []int{50, 100}, Use: "slim garlands, columns", Mark: MarkCommonPractice,
		FullL: 10.2, FullLMark: MarkFromMemory, StretchMark: MarkFromMemory,
	},
	{
		NominalIn: 11, TwinIn: 12, DecorMinIn: 9, DecorToIn: 10, DecorMaxIn: 10.5, FullIn: 11, LatexG: 2.9, FullStretch: 4,
		BagsOf: []int{25, 50, 100}, Use: "the workhorse", Mark: MarkCommonPractice,
		FullL: 0.5 * LitresPerCuFt, FullLMark: MarkCommonPractice, StretchMark: MarkFromMemory,
	},
	{
		NominalIn: 12, TwinIn: 11, DecorMinIn: 9, DecorToIn: 10, DecorMaxIn: 11, FullIn: 12, LatexG: 2.9, FullStretch: 4,
		BagsOf: []int{25, 50, 100}, Use: "the workhorse", Mark: MarkCommonPractice,
		FullL: 0.55 * LitresPerCuFt, FullLMark: MarkCommonPractice, StretchMark: MarkFromMemory,
	},
	{
		NominalIn: 16, TwinIn: 18, DecorMinIn: 14, DecorToIn: 14, DecorMaxIn: 15, FullIn: 16, LatexG: 7, FullStretch: 4,
		BagsOf: []int{25, 50}, Use: "body, focal points", Mark: MarkCommonPractice,
		FullL: 1.5 * LitresPerCuFt, FullLMark: MarkCommonPractice, StretchMark: MarkFromMemory,
	},
	{
		NominalIn: 18, TwinIn: 16, DecorMinIn: 14, DecorToIn: 16, DecorMaxIn: 16.5, FullIn: 18, LatexG: 9,
		FullStretch: 4, BagsOf: []int{25, 50}, Use: "body, focal points", Mark: MarkCommonPractice,
		FullL: 60, FullLMark: MarkFromMemory, StretchMark: MarkFromMemory,
	},
	{
		NominalIn: 24, DecorMinIn: 20, DecorToIn: 22, DecorMaxIn: 23, FullIn: 24, LatexG: 18, FullStretch: 4,
		BagsOf: []int{5, 10, 25}, Use: "focal points", Mark: MarkCommonPractice,
		FullL: 135, FullLMark: MarkFromMemory, StretchMark: MarkFromMemory,
	},
	{
		NominalIn: 36, DecorMinIn: 30, DecorToIn: 33, DecorMaxIn: 35, FullIn: 36, LatexG: 45, FullStretch: 4,
		BagsOf: []int{1, 2, 5}, Use: "focal points", Mark: MarkCommonPractice,
		FullL: 15 * LitresPerCuFt, FullLMark: MarkCommonPractice, StretchMark: MarkFromMemory,
	},
	// Only the 260 has a remembered mass. The others have the same skin, so mass is proportional to width times length.
	{
		NominalIn: 160, FullIn: 1, LengthIn: 60, LatexG: 0.75,
		BagsOf: []int{50, 100}, Use: "ties, twisted shapes", Mark: MarkScaled,
	},
	{
		NominalIn: 260, FullIn: 2, LengthIn: 60, LatexG: 1.5,
		BagsOf: []int{50, 100}, Use: "ties, twisted shapes", Mark: MarkCommonPractice,
	},
	{
		NominalIn: 350, FullIn: 3, LengthIn: 50, LatexG: 1.875,
		BagsOf: []int{50, 100}, Use: "ties, twisted shapes", Mark: MarkScaled,
	},
}

// Find returns the row of the size called nominalIn, or false.
func Find(nominalIn int) (Size, bool) {
	for i := range sizes {
		if sizes[i].NominalIn == nominalIn {
			return sizes[i], true
		}
	}
	return Size{}, false
}

// Modelling reports whether the size is a long balloon for ties and twisting.
func (s Size) Modelling() bool { return s.LengthIn > 0 }

// FullMM returns the diameter (for modelling balloons the width) when full.
func (s Size) FullMM() float64 { return s.FullIn * MMPerInch }

// UsualIn returns the usual diameter for décor, in inches, of the size called nominalIn: what an empty "sized to" means
// everywhere. It is the nominal diameter for a size that is not in the table, and 0 for 0 or less.
func UsualIn(nominalIn int) float64 {
	if s, known := Find(nominalIn); known && s.DecorToIn > 0 {
		return s.DecorToIn
	}
	return float64(max(0, nominalIn))
}

// DecorToMM returns the usual diameter for décor; 0 for modelling balloons.
func (s Size) DecorToMM() float64 { return s.DecorToIn * MMPerInch }
