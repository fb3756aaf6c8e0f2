package task

import (
	"garlandry/calc/latex"
	"garlandry/calc/rig"
)

// The cautions, in our own words. Local codes, venue rules and makers' labels come first.
var (
	choking = &Caution{"choking", latex.CautionChoking}
	allergy = &Caution{"latex", latex.CautionAllergy}
	helium  = &Caution{"helium", latex.CautionHelium}
	release = &Caution{"release", latex.CautionRelease}
	eyes    = &Caution{"eyes", latex.CautionEyes}
	heat    = &Caution{"heat", latex.CautionHeat}
	ladder  = &Caution{
		"ladder",
		"Open the step ladder fully on firm, level ground and have somebody hold it. Never stand on the top step and " +
			"never lean out: climb down and move it. Set a leaning ladder one out for every four up.",
	}
	overhead = &Caution{
		"overhead",
		"Hang nothing heavy over people's heads on line. Anything with weight needs points the venue has approved, " +
			"and a licensed rigger to put it up.",
	}
	wind = &Caution{
		"wind",
		"A garland on a frame is a sail. Agree on a wind limit beforehand, name one person to watch the wind, and take " +
			"it down early. The venue's rules and local codes come first.",
	}
	lifting = &Caution{"lifting",
		"Lift frames and covers with two people, knees bent, the load close. Carry base weights a few at a time."}
	bar   = &Caution{"bar", rig.CautionBar}
	exits = &Caution{
		"exits",
		"Keep exits, exit signs, sprinklers, smoke detectors and extinguishers clear and in sight. Stay clear of hot " +
			"lamps, flames and power lines.",
	}
)

// Caution is a safety warning on a card.
type Caution struct {
	Key  string // "choking", "latex", "helium", "ladder", "overhead", "wind", "eyes", "lifting", "bar", "exits", "heat"
	Text string
}

// cautionOf finds a caution by its key.
func cautionOf(key string) *Caution {
	for _, c := range []*Caution{choking, allergy, helium, release, eyes, heat, ladder, overhead, wind, lifting, bar,
		exits} {
		if c.Key == key {
			return c
		}
	}
	return &Caution{Key: key}
}
