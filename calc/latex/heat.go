package latex

import "math"

// Growth describes how a balloon changes between filling and showing.
type Growth struct {
	// ShowMM is the diameter at the show of a balloon filled to the wanted diameter.
	ShowMM float64
	// VolumeRatio is the volume at the show divided by that at filling.
	VolumeRatio float64
	// FillToMM is the diameter to fill to, so that it has the wanted diameter at the show.
	FillToMM float64
	// FillPctAtShow is ShowMM as a percentage of the full diameter.
	FillPctAtShow float64
	// FillPressurePa and ShowPressurePa are the overpressures of the rubber.
	FillPressurePa, ShowPressurePa float64
	// FillAirPa and ShowAirPa are the pressures of the air.
	FillAirPa, ShowAirPa float64
	// Notes are sentences to show, none if all is well.
	Notes []string

	skin Skin
}

// Heat computes how a balloon of the size, filled to toMM in one place, grows or shrinks in another. The gas keeps its
// amount and takes the temperature of the air, and gas and rubber are in equilibrium: n R T = (air + rubber) V. Errors
// wrap [ErrInput].
func Heat(s Size, toMM float64, fill, show Place) (Growth, error) {
	if err := s.checkRound(toMM); err != nil {
		return Growth{}, err
	}
	if err := fill.check("filling"); err != nil {
		return Growth{}, err
	}
	if err := show.check("show"); err != nil {
		return Growth{}, err
	}
	k := s.Skin()
	showMM, err := Grow(k, toMM, fill, show)
	if err != nil {
		return Growth{}, err
	}
	fillToMM, err := Grow(k, toMM, show, fill)
	if err != nil {
		return Growth{}, err
	}
	g := Growth{
		ShowMM: showMM, VolumeRatio: k.bulk(showMM) / k.bulk(toMM), FillToMM: fillToMM, skin: k,
		FillPctAtShow:  s.FillPct(showMM),
		FillPressurePa: k.PressurePa(toMM), ShowPressurePa: k.PressurePa(showMM),
		FillAirPa: fill.AirPa(), ShowAirPa: show.AirPa(),
	}
	g.Notes = growthNotes(g, show)
	return g, nil
}

// LeastGrowth and MostGrowth bound a measured growth divided by the calculated one. Values beyond them are misread.
const LeastGrowth, MostGrowth = 0.2, 5

// Times returns the growth of balloons, filled to toMM, that grow or shrink the given number of times as much as [Heat]
// calculates: [LeastGrowth] to [MostGrowth]. Pressures stay the same.
func (g Growth) Times(toMM, times float64, show Place) Growth {
	if times == 1 {
		return g
	}
	full := g.ShowMM / g.FillPctAtShow
	g.ShowMM = toMM + float64(times*(g.ShowMM-toMM))
	g.FillToMM = toMM + float64(times*(g.FillToMM-toMM))
	g.VolumeRatio = g.skin.bulk(g.ShowMM) / g.skin.bulk(toMM)
	g.FillPctAtShow = g.ShowMM / full
	g.Notes = growthNotes(g, show)
	return g
}

func growthNotes(g Growth, show Place) []string {
	var notes []string
	switch {
	case g.FillPctAtShow > 100+1e-9:
		add(&notes, "It grows past full and is likely to burst: size it smaller where you fill it.")
	case g.FillPctAtShow >= TooFullPct:
		add(&notes, "It ends nearly full, hard and pear-shaped; one touch of something rough bursts it.")
	case g.FillPctAtShow < 70:
		add(&notes, "It ends soft and wrinkled; top it up at the show or fill it there.")
	}
	if full := g.ShowMM / g.FillPctAtShow * 100; g.FillToMM > full*(1+1e-9) {
		add(&notes, "To be that size at the show it must be filled past full, and is likely to burst. Fill it at the "+
			"show, or take a larger size.")
	}
	if show.TempC >= 45 {
		add(&notes,
			"Heat like this is a closed car or full sun: latex weakens as well as grows. Shade it, air the car, load last.")
	}
	return notes
}

// Grow returns the diameter in mm at the place `to` of a balloon that has diameterMM at the place `from` and loses no
// gas. The zero Skin gives Charles's and Boyle's laws together. It accepts -150 to 200 °C, more than [Heat]. Errors
// wrap [ErrInput].
func Grow(k Skin, diameterMM float64, from, to Place) (float64, error) {
	if err := within("diameter", diameterMM, 10, 3000, "mm"); err != nil {
		return 0, err
	}
	if err := k.check(); err != nil {
		return 0, err
	}
	if err := from.checkBetween("first", -150, 200); err != nil {
		return 0, err
	}
	if err := to.checkBetween("second", -150, 200); err != nil {
		return 0, err
	}
	gas := (from.AirPa() + k.PressurePa(diameterMM)) * k.bulk(diameterMM) / kelvin(from.TempC)
	return k.equilibriumMM(gas*kelvin(to.TempC), to.AirPa()), nil
}

// equilibriumMM solves (air + rubber(d)) bulk(d) = energy for d. The left side always rises with d: for a sphere the
// rubber's part is proportional to (L² - 1/L⁴)(s+ - s- L²) with s- negative, and a pear only adds to it. So there is
// one root, and bisection finds it, even where the rubber's pressure falls with size.
func (k Skin) equilibriumMM(energy, airPa float64) float64 {
	most := math.Cbrt(energy / airPa)
	if k.PressurePa(most) == 0 && k.pear.ratio(most) == 1 {
		return most
	}
	lowest := 0.0
	for range 200 {
		middle := lowest + (most-lowest)/2
		if middle <= lowest || middle >= most {
			break
		}
		if (airPa+k.PressurePa(middle))*k.bulk(middle) < energy {
			lowest = middle
		} else {
			most = middle
		}
	}
	return most
}

// bulk is proportional to the volume inside: the cube of the diameter, more for a pear.
func (k Skin) bulk(mm float64) float64 { return mm * mm * mm * k.pear.ratio(mm) }

func kelvin(celsius float64) float64 { return celsius + 273.15 }
