package count

import (
	"garlandry/app/plan/figures"
	"garlandry/calc/latex"
)

// bulkL returns the litres that balloons take in bags: their volume over the packing density of loose
// clusters.
func (d *Draft) bulkL(list []PieceBalloons) float64 {
	volume := 0.0
	for _, b := range list {
		volume += float64(float64(b.Count) * d.EachL(b.SizeIn, b.ToIn))
	}
	return volume / d.Figures.Get("car/packing")
}

// HomeL returns the litres in bags of what is made of a piece at home.
func (d *Draft) HomeL(c *Counted) float64 {
	return float64(c.ownAtHome()*d.bulkL(c.Own())) + d.LayersHomeL(c)
}

// LayersHomeL returns the litres in bags of a piece's layers that are made at home.
func (d *Draft) LayersHomeL(c *Counted) float64 {
	sum := 0.0
	for i := range c.Layers {
		if l := &c.Layers[i]; !l.OnSite {
			sum += d.LayerL(l)
		}
	}
	return sum
}

// LayerL returns the litres that a layer's balloons take in bags.
func (d *Draft) LayerL(l *LayerCount) float64 { return d.bulkL(l.By) }

// EachL returns the litres of gas in one balloon, air or helium. A size that is not in the tables is a sphere.
func (d *Draft) EachL(sizeIn int, toIn float64) float64 {
	if size, known := latex.Find(sizeIn); known {
		size.OwnGas = d.Figures.Get("gas/own")
		return size.VolumeL(float64(toIn * latex.MMPerInch))
	}
	return latex.VolumeL(float64(toIn * latex.MMPerInch))
}

// BaseMM returns the length of base in all pieces.
func (d *Draft) BaseMM() float64 {
	sum := 0.0
	for _, c := range d.Pieces {
		sum += c.LineMM
	}
	return sum
}

// HeliumL returns the litres of helium in all floating balloons.
func (d *Draft) HeliumL() float64 {
	volume := 0.0
	for _, c := range d.Pieces {
		if c.Helium {
			for _, b := range c.Own() {
				volume += float64(float64(b.Count) * d.EachL(b.SizeIn, b.ToIn))
			}
		}
	}
	return volume
}

// Floating returns how many balloons are filled with helium.
func (d *Draft) Floating() int {
	return d.Sum(func(c *Counted) int {
		if c.Helium {
			return c.BaseBalloons() + c.AccentBalloons
		}
		return 0
	})
}

// BallastG returns the grams that hold one bunch of the piece down; 0 if nothing in it floats.
func (d *Draft) BallastG(c *Counted) float64 {
	sum := 0.0
	for _, b := range c.Own() {
		if lift, ok := d.Lift(b.SizeIn, b.ToIn); ok {
			sum += float64(lift.BallastG * float64(b.Count))
		}
	}
	if c.Make.Count == 0 {
		return 0
	}
	return sum / float64(c.Make.Count)
}

// Cylinder returns a full cylinder by the figures.
func (d *Draft) Cylinder() latex.Cylinder {
	return latex.Cylinder{Litres: d.Figures.Get("supply/cylinder-l"), GaugeBar: d.Figures.Get("supply/cylinder-bar"),
		TempC: d.Venue().TempC}
}

// Lift returns how one helium balloon floats at the venue, and how many a cylinder by the figures fills. It reports
// false for a size that is not in the tables.
func (d *Draft) Lift(sizeIn int, toIn float64) (latex.Lift, bool) {
	return d.LiftFrom(sizeIn, toIn, d.Cylinder())
}

// LiftFrom is [Draft.Lift] with gas from a cylinder.
func (d *Draft) LiftFrom(sizeIn int, toIn float64, from latex.Cylinder) (latex.Lift, bool) {
	size, known := d.size(sizeIn)
	if !known {
		return latex.Lift{}, false
	}
	air := d.Venue()
	air.HumidityPct = heliumHumidityPct
	lift, err := latex.Floating(latex.LiftInput{
		Size: size, ToMM: float64(toIn * latex.MMPerInch), Air: air, GelFactor: d.Figures.Get("float/own"),
		ExtraG:   float64(d.Figures.Get("supply/ribbon") * d.Figures.Get("supply/ribbon-g")),
		Cylinder: from,
	})
	if d.Figures.Row("float/own").Overridden {
		lift.FloatMark = string(figures.Measured)
	}
	return lift, err == nil
}

// heliumHumidityPct is the relative humidity assumed for floating balloons, as in the calculator.
const heliumHumidityPct = 50

// Venue returns the air at the venue.
func (d *Draft) Venue() latex.Place {
	return latex.Place{TempC: d.Job.Brief.VenueC, AltitudeM: d.Job.Brief.AltitudeMM / 1000}
}

// Shown returns the air at the venue as balloons there feel it: warmer in the sun outdoors.
func (d *Draft) Shown() latex.Place {
	place := d.Venue()
	if d.Job.Brief.Sun == "sun" && d.Job.Brief.Place == "outdoors" {
		place.TempC += d.Figures.Get("heat/sun")
	}
	return place
}

// Prep returns the air where balloons are filled beforehand.
func (d *Draft) Prep() latex.Place { return latex.Place{TempC: d.Job.Brief.PrepC} }

// BulkHomeL returns the litres that everything made at home takes.
func (d *Draft) BulkHomeL() float64 {
	sum := 0.0
	for _, c := range d.Pieces {
		sum += d.HomeL(c)
	}
	return sum
}
