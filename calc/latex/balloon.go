package latex

import "fmt"

// Balloon describes one balloon inflated to a diameter.
type Balloon struct {
	DiameterMM, CircumferenceMM float64
	// VolumeL is the gas in it, see [Size.VolumeL].
	VolumeL float64
	// FillPct is the diameter as a percentage of the full diameter.
	FillPct float64
	// LatexG is the mass of the latex.
	LatexG float64
	// PressurePa is the overpressure inside, from [Skin.PressurePa].
	PressurePa float64
	// Notes are sentences to show, none if all is well.
	Notes []string
}

// Describe computes the measures of a round balloon of the size inflated to toMM. Errors wrap [ErrInput]: a modelling
// balloon, or toMM outside [MinFillPct] to [MaxFillPct] of full.
func Describe(s Size, toMM float64) (Balloon, error) {
	if err := s.checkRound(toMM); err != nil {
		return Balloon{}, err
	}
	b := Balloon{
		DiameterMM: toMM, CircumferenceMM: CircumferenceMM(toMM), VolumeL: s.VolumeL(toMM),
		FillPct: s.FillPct(toMM), LatexG: s.LatexG, PressurePa: s.Skin().PressurePa(toMM),
	}
	switch {
	case b.FillPct > 100+1e-9:
		add(&b.Notes, "Past full: it is likely to burst while you tie it.")
	case b.FillPct >= TooFullPct:
		add(&b.Notes, "Nearly full: hard to twist, pear-shaped, no room for warmth.")
	case b.FillPct < 75:
		add(&b.Notes, "Small for this size: soft, and the colour is darker than on a fuller one.")
	}
	return b, nil
}

func (s Size) checkRound(toMM float64) error {
	if s.Modelling() {
		return fmt.Errorf("%w: size %d is a modelling balloon, choose a round one such as 11", ErrInput, s.NominalIn)
	}
	if !(s.FullIn > 0 && s.FullIn <= 100) {
		return fmt.Errorf("%w: size %d has no full diameter, choose one of the table", ErrInput, s.NominalIn)
	}
	name := fmt.Sprintf("diameter of a %d in balloon", s.NominalIn)
	return within(name, toMM, MinFillPct/100*s.FullMM(), MaxFillPct/100*s.FullMM(), "mm")
}
