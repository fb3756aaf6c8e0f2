package task

import (
	"garlandry/calc/latex"
	"garlandry/calc/rig"
)

// The cautions, in our own words. Local codes, the venue's rules and the makers' labels come first.
var (
	choking = &Caution{"choking", latex.CautionChoking}
	allergy = &Caution{"latex", latex.CautionAllergy}
	helium  = &Caution{"helium", latex.CautionHelium}
	release = &Caution{"release", latex.CautionRelease}
	eyes    = &Caution{"eyes", latex.CautionEyes}
	heat    = &Caution{"heat", latex.CautionHeat}
	ladder  = &Caution{
		"ladder",
		"Set the step ladder on firm level ground and open it fully, with somebody holding it. Never stand on the top " +
			"step, never lean out: climb down and move it. A leaning ladder stands one out for every four up.",
	}
	overhead = &Caution{
		"overhead",
		"Nothing heavy goes over people's heads on line. Anything with weight hangs from points the venue has approved, " +
			"put up by a licensed rigger.",
	}
	wind = &Caution{
		"wind",
		"A garland on a frame is a sail. Agree beforehand at what wind it comes down, name one person who watches, and " +
			"take it down early. The venue's rules and local codes come first.",
	}
	lifting = &Caution{"lifting",
		"Two people lift frames and covers, with knees bent and the load close. Carry base weights a few at a time."}
	bar   = &Caution{"bar", rig.CautionBar}
	exits = &Caution{
		"exits",
		"Keep ways out, exit signs, sprinklers, smoke heads and extinguishers free and in sight. Stay clear of hot lamps, " +
			"flames and power lines.",
	}
)

// Caution is a warning shown where the hand is.
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
