package plan

import (
	"garlandry/calc/latex"
)

// bulkL is the room that a piece's balloons take in bags, litres: their volume over how densely loose clusters lie.
func (d *Draft) bulkL(c *counted) float64 {
	volume := 0.0
	for _, b := range c.By {
		volume += float64(float64(b.Count) * latex.VolumeL(float64(b.ToIn*latex.MMPerInch)))
	}
	return volume / d.figures.get("car/packing")
}

// baseMM is the length of base in all pieces.
func (d *Draft) baseMM() float64 {
	sum := 0.0
	for _, c := range d.pieces {
		sum += c.lineMM
	}
	return sum
}

// heliumL is the helium in all floating balloons, litres.
func (d *Draft) heliumL() float64 {
	volume := 0.0
	for _, c := range d.pieces {
		if c.helium {
			for _, b := range c.By {
				volume += float64(float64(b.Count) * latex.VolumeL(float64(b.ToIn*latex.MMPerInch)))
			}
		}
	}
	return volume
}

// floating is how many balloons are filled with helium.
func (d *Draft) floating() int {
	return d.sum(func(c *counted) int {
		if c.helium {
			return c.Balloons
		}
		return 0
	})
}

// ballastG is the weight that holds one bunch of the piece down, grams; 0 if nothing in it floats.
func (d *Draft) ballastG(c *counted) float64 {
	sum := 0.0
	for _, b := range c.By {
		if lift, ok := d.lift(b.SizeIn, b.ToIn); ok {
			sum += float64(lift.BallastG * float64(b.Count))
		}
	}
	if c.make.count == 0 {
		return 0
	}
	return sum / float64(c.make.count)
}

// lift is what one helium balloon does at the venue; false if the tables do not know it.
func (d *Draft) lift(sizeIn int, toIn float64) (latex.Lift, bool) {
	size, known := d.size(sizeIn)
	if !known {
		return latex.Lift{}, false
	}
	air := d.venue()
	air.HumidityPct = heliumHumidityPct
	lift, err := latex.Floating(latex.LiftInput{
		Size: size, ToMM: float64(toIn * latex.MMPerInch), Air: air, GelFactor: d.figures.get("float/own"), ExtraG: float64(d.figures.get("supply/ribbon") * d.figures.get("supply/ribbon-g")),
		Cylinder: latex.Cylinder{Litres: d.figures.get("supply/cylinder-l"),
			GaugeBar: d.figures.get("supply/cylinder-bar"), TempC: air.TempC},
	})
	if d.figures.row("float/own").Overridden {
		lift.FloatMark = string(Measured)
	}
	return lift, err == nil
}

// heliumHumidityPct is the relative humidity that floating balloons are counted with, as in the calculator.
const heliumHumidityPct = 50

// venue is the air at the venue, prep the air where balloons are filled beforehand.
func (d *Draft) venue() latex.Place {
	return latex.Place{TempC: d.job.Brief.VenueC, AltitudeM: d.job.Brief.AltitudeMM / 1000}
}

func (d *Draft) prep() latex.Place { return latex.Place{TempC: d.job.Brief.PrepC} }

// bulkHomeL is the room of all that is made at home, litres.
func (d *Draft) bulkHomeL() float64 {
	sum := 0.0
	for _, c := range d.pieces {
		sum += float64(c.atHome() * d.bulkL(c))
	}
	return sum
}
