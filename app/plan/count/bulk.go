package count

import (
	"garlandry/app/plan/figures"
	"garlandry/calc/latex"
)

// BulkL is the room that a piece's balloons take in bags, litres: their volume over how densely loose clusters lie.
func (d *Draft) BulkL(c *Counted) float64 {
	volume := 0.0
	for _, b := range c.By {
		volume += float64(float64(b.Count) * latex.VolumeL(float64(b.ToIn*latex.MMPerInch)))
	}
	return volume / d.Figures.Get("car/packing")
}

// BaseMM is the length of base in all pieces.
func (d *Draft) BaseMM() float64 {
	sum := 0.0
	for _, c := range d.Pieces {
		sum += c.LineMM
	}
	return sum
}

// HeliumL is the helium in all floating balloons, litres.
func (d *Draft) HeliumL() float64 {
	volume := 0.0
	for _, c := range d.Pieces {
		if c.Helium {
			for _, b := range c.By {
				volume += float64(float64(b.Count) * latex.VolumeL(float64(b.ToIn*latex.MMPerInch)))
			}
		}
	}
	return volume
}

// Floating is how many balloons are filled with helium.
func (d *Draft) Floating() int {
	return d.Sum(func(c *Counted) int {
		if c.Helium {
			return c.Balloons
		}
		return 0
	})
}

// BallastG is the weight that holds one bunch of the piece down, grams; 0 if nothing in it floats.
func (d *Draft) BallastG(c *Counted) float64 {
	sum := 0.0
	for _, b := range c.By {
		if lift, ok := d.Lift(b.SizeIn, b.ToIn); ok {
			sum += float64(lift.BallastG * float64(b.Count))
		}
	}
	if c.Make.Count == 0 {
		return 0
	}
	return sum / float64(c.Make.Count)
}

// Lift is what one helium balloon does at the venue; false if the tables do not know it.
func (d *Draft) Lift(sizeIn int, toIn float64) (latex.Lift, bool) {
	size, known := d.size(sizeIn)
	if !known {
		return latex.Lift{}, false
	}
	air := d.Venue()
	air.HumidityPct = heliumHumidityPct
	lift, err := latex.Floating(latex.LiftInput{
		Size: size, ToMM: float64(toIn * latex.MMPerInch), Air: air, GelFactor: d.Figures.Get("float/own"),
		ExtraG: float64(d.Figures.Get("supply/ribbon") * d.Figures.Get("supply/ribbon-g")),
		Cylinder: latex.Cylinder{Litres: d.Figures.Get("supply/cylinder-l"),
			GaugeBar: d.Figures.Get("supply/cylinder-bar"), TempC: air.TempC},
	})
	if d.Figures.Row("float/own").Overridden {
		lift.FloatMark = string(figures.Measured)
	}
	return lift, err == nil
}

// heliumHumidityPct is the relative humidity that floating balloons are counted with, as in the calculator.
const heliumHumidityPct = 50

// Venue is the air at the venue, prep the air where balloons are filled beforehand.
func (d *Draft) Venue() latex.Place {
	return latex.Place{TempC: d.Job.Brief.VenueC, AltitudeM: d.Job.Brief.AltitudeMM / 1000}
}

func (d *Draft) Prep() latex.Place { return latex.Place{TempC: d.Job.Brief.PrepC} }

// BulkHomeL is the room of all that is made at home, litres.
func (d *Draft) BulkHomeL() float64 {
	sum := 0.0
	for _, c := range d.Pieces {
		sum += float64(c.AtHome() * d.BulkL(c))
	}
	return sum
}
