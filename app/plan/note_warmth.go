package plan

import (
	"strconv"

	"garlandry/app/plan/count"
	"garlandry/app/plan/phrase"
	"garlandry/calc/latex"
	"garlandry/calc/measure"
)

// warmthNotes warns where warmer or thinner air, or the sun, makes balloons too full, see [latex.TooFullPct], and says
// what to size them to instead.
func warmthNotes(d *draft) {
	done := map[string]bool{}
	for _, c := range d.Pieces {
		fill, show := d.Venue(), d.Shown()
		if c.AtHome() > 0 {
			fill = d.Prep()
		}
		if show.TempC <= fill.TempC && show.AltitudeM <= fill.AltitudeM {
			continue
		}
		for _, by := range c.By {
			key := strconv.Itoa(by.SizeIn) + "@" + phrase.Number(by.ToIn) + " " + phrase.Number(fill.TempC)
			if !done[key] {
				done[key] = true
				d.warmthNote(by, fill, show)
			}
		}
	}
}

// warmthNote warns about balloons of one size. The advised size is the usual soft one at the show, or smaller.
func (d *draft) warmthNote(by count.PieceBalloons, fill, show latex.Place) {
	size, known := latex.Find(by.SizeIn)
	if !known {
		return
	}
	toMM, own := float64(by.ToIn*latex.MMPerInch), d.Figures.Get("heat/own")
	growth, err := latex.Heat(size, toMM, fill, show)
	if err != nil {
		return
	}
	if growth = growth.Times(toMM, own, show); growth.FillPctAtShow < latex.TooFullPct {
		return
	}
	if soft := latex.MostSoftPct / 100 * size.FullMM(); toMM > soft {
		toMM = soft
	}
	safe, err := latex.Heat(size, toMM, fill, show)
	if err != nil {
		return
	}
	where := " of full at the venue"
	if show.TempC > d.Venue().TempC {
		where += " in the sun"
	}
	d.Warn("", phrase.Inch(by.SizeIn)+" balloons sized to "+d.Small(by.ToIn)+" at "+
		measure.FormatTemperature(fill.TempC, d.Units)+" grow to "+measure.FormatPercent(growth.FillPctAtShow)+
		where+". Size them to "+d.SmallMM(safe.Times(toMM, own, show).FillToMM)+" to be safe.")
}
