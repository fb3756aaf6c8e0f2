package count

import (
	"garlandry/app/plan/figures"
	"garlandry/calc/latex"
)

// size returns a size with the mass and the gas of its balloons in this job. It reports false for a size that is not in
// the tables.
func (d *Draft) size(sizeIn int) (latex.Size, bool) {
	size, known := latex.Find(sizeIn)
	if known {
		size.LatexG = d.Figures.Get(figures.RubberKey(sizeIn))
		if !size.Modelling() {
			size.OwnGas = d.Figures.Get("gas/own")
		}
	}
	return size, known
}

// MassG returns the grams of a piece filled with air: rubber, 260s, and the air that the rubber compresses.
func (d *Draft) MassG(c *Counted) float64 {
	tie, _ := d.size(260)
	sum := float64(float64(c.Ties) * tie.LatexG)
	air := d.Venue()
	for _, b := range c.By {
		size, known := d.size(b.SizeIn)
		if known {
			toMM := float64(b.ToIn * latex.MMPerInch)
			pressed := float64(size.VolumeL(toMM) * air.AirDensity() * (size.Skin().PressurePa(toMM) / air.AirPa()))
			sum += float64(float64(b.Count) * (size.LatexG + pressed))
		}
	}
	return sum
}
