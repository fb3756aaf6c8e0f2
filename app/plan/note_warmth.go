package plan

import (
	"strconv"

	"garlandry/app/plan/phrase"
	"garlandry/calc/latex"
	"garlandry/calc/measure"
)

// tooFullPct is how full a balloon may get at the venue before it is likely to burst. Common practice: a round, soft
// balloon is 80 to 92 % full, which leaves room for warmth.
const tooFullPct = 97

// warmthNotes warns where warmer or thinner air makes balloons too full, and says what to size them to instead.
func warmthNotes(d *draft) {
	b := d.Job.Brief
	if b.VenueC <= b.PrepC && b.AltitudeMM <= 0 {
		return
	}
	done := map[string]bool{}
	for _, c := range d.Pieces {
		if c.AtHome() == 0 {
			continue
		}
		for _, by := range c.By {
			key := strconv.Itoa(by.SizeIn) + "@" + phrase.Number(by.ToIn)
			size, known := latex.Find(by.SizeIn)
			if !known || done[key] {
				continue
			}
			done[key] = true
			growth, err := latex.Heat(size, float64(by.ToIn*latex.MMPerInch), d.Prep(), d.Venue())
			growth = growth.Times(float64(by.ToIn*latex.MMPerInch), d.Figures.Get("heat/own"), d.Venue())
			if err != nil || growth.FillPctAtShow < tooFullPct {
				continue
			}
			d.Warn("", phrase.Inch(by.SizeIn)+" balloons sized to "+d.Small(by.ToIn)+" at "+
				measure.FormatTemperature(b.PrepC, d.Units)+" grow to "+measure.FormatPercent(growth.FillPctAtShow)+
				" of full at the venue. Size them to "+d.SmallMM(growth.FillToMM)+" to be safe.")
		}
	}
}
