package plan

import (
	"strconv"

	"garlandry/app/plan/phrase"
	"garlandry/calc/latex"
	"garlandry/calc/measure"
)

// tooFullPct is how full a balloon may become at the venue before it is sure to burst soon. Common practice: room for
// warmth above the 80 to 92 % of a round, soft balloon.
const tooFullPct = 97

// warmthNotes says where warmer or thinner air would fill balloons up, and what to size them to instead.
func warmthNotes(d *draft) {
	b := d.Job.Brief
	if b.VenueC <= b.PrepC && b.AltitudeMM <= 0 {
		return
	}
	said := map[string]bool{}
	for _, c := range d.Pieces {
		if c.AtHome() == 0 {
			continue
		}
		for _, by := range c.By {
			key := strconv.Itoa(by.SizeIn) + "@" + phrase.Number(by.ToIn)
			size, known := latex.Find(by.SizeIn)
			if !known || said[key] {
				continue
			}
			said[key] = true
			growth, err := latex.Heat(size, float64(by.ToIn*latex.MMPerInch), d.Prep(), d.Venue())
			growth = growth.Times(float64(by.ToIn*latex.MMPerInch), d.Figures.Get("heat/own"), d.Venue())
			if err != nil || growth.FillPctAtShow < tooFullPct {
				continue
			}
			d.Warn(
				"",
				phrase.Inch(by.SizeIn)+" balloons sized to "+d.Small(
					by.ToIn,
				)+" at "+measure.FormatTemperature(b.PrepC, d.Units)+" grow to "+
					measure.FormatPercent(growth.FillPctAtShow)+" of full at the venue. Size them to "+measure.FormatSmallLength(
					growth.FillToMM,
					d.Units,
				)+" to be safe.",
			)
		}
	}
}
