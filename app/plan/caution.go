package plan

import "garlandry/calc/latex"

// The cautions, in our own words. Local codes, the venue's rules and the makers' labels come first.
func choking() Caution { return Caution{"choking", latex.CautionChoking} }
func allergy() Caution { return Caution{"latex", latex.CautionAllergy} }
func helium() Caution  { return Caution{"helium", latex.CautionHelium} }
func release() Caution { return Caution{"release", latex.CautionRelease} }
func eyes() Caution    { return Caution{"eyes", latex.CautionEyes} }
func heat() Caution    { return Caution{"heat", latex.CautionHeat} }

func ladder() Caution {
	return Caution{"ladder", "Set the step ladder on firm level ground and open it fully, with somebody holding it. Never stand on the top step, never lean out: climb down and move it. A leaning ladder stands one out for every four up."}
}

func overhead() Caution {
	return Caution{"overhead", "Nothing heavy goes over people's heads on line. Anything with weight hangs from points the venue has approved, put up by a licensed rigger."}
}

func wind() Caution {
	return Caution{"wind", "A garland on a frame is a sail. Agree beforehand at what wind it comes down, name one person who watches, and take it down early. The venue's rules and local codes come first."}
}

func lifting() Caution {
	return Caution{"lifting", "Two people lift frames and covers, with knees bent and the load close. Carry base weights a few at a time."}
}

func exits() Caution {
	return Caution{"exits", "Keep ways out, exit signs, sprinklers, smoke heads and extinguishers free and in sight. Stay clear of hot lamps, flames and power lines."}
}
