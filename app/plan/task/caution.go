package task

import (
	"garlandry/calc/latex"
	"garlandry/calc/rig"
)

// The cautions, in our own words. Local codes, venue rules and makers' labels come first.
var (
	choking  = &Caution{"choking", latex.CautionChoking}
	allergy  = &Caution{"latex", latex.CautionAllergy}
	helium   = &Caution{"helium", latex.CautionHelium}
	release  = &Caution{"release", latex.CautionRelease}
	eyes     = &Caution{"eyes", latex.CautionEyes}
	heat     = &Caution{"heat", latex.CautionHeat}
	ladder   = &Caution{"ladder", rig.CautionLadder}
	overhead = &Caution{"overhead", rig.CautionOverhead}
	wind     = &Caution{"wind", rig.CautionWind}
	lifting  = &Caution{"lifting", rig.CautionCarrying}
	bar      = &Caution{"bar", rig.CautionBar}
	stakes   = &Caution{"stakes", rig.CautionStakes}
	exits    = &Caution{
		"exits",
		"Keep exits, exit signs, sprinklers, smoke detectors and extinguishers clear and in sight. Stay clear of hot " +
			"lamps, flames and power lines.",
	}
)

// Caution is a safety warning on a card.
type Caution struct {
	Key  string // "helium", "ladder" and so on, as above
	Text string
}

// cautionOf finds a caution by its key.
func cautionOf(key string) *Caution {
	for _, c := range []*Caution{choking, allergy, helium, release, eyes, heat, ladder, overhead, wind, lifting, bar,
		stakes, exits, alone} {
		if c.Key == key {
			return c
		}
	}
	return &Caution{Key: key}
}
