package count

import (
	"garlandry/app/plan/figures"
	"garlandry/calc/latex"
)

// size is a size with the mass that its balloons have in this job; false if the tables do not know it.
func (d *Draft) size(sizeIn int) (latex.Size, bool) {
	size, known := latex.Find(sizeIn)
	if known {
		size.LatexG = d.Figures.Get(figures.RubberKey(sizeIn))
	}
	return size, known
}

// MassG is what a piece of air-filled balloons weighs, grams: rubber, 260s, and the air that the rubber presses
// together beyond the air around it.
func (d *Draft) MassG(c *Counted) float64 {
	tie, _ := d.size(260)
	sum := float64(float64(c.Ties) * tie.LatexG)
	air := d.Venue()
	for _, b := range c.By {
		size, known := d.size(b.SizeIn)
		if known {
			toMM := float64(b.ToIn * latex.MMPerInch)
			pressed := float64(latex.VolumeL(toMM) * air.AirDensity() * (size.Skin().PressurePa(toMM) / air.AirPa()))
			sum += float64(float64(b.Count) * (size.LatexG + pressed))
		}
	}
	return sum
}
