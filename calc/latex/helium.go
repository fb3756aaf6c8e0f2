package latex

import (
	"fmt"
	"math"
)

const (
	// gasConstant is R in J/(mol K), exact by CODATA 2018.
	gasConstant = 8.314462618
	// heliumMolarG is the standard atomic weight of helium in g/mol (IUPAC).
	heliumMolarG = 4.002602
	// HeliumVirialCM3 is the second virial coefficient of helium near room
	// temperature in cm³/mol (from memory).
	HeliumVirialCM3 = 11.8
)

// Compressibility returns Z of helium: p V = Z n R T with Z = 1 + B p/(R T). It is good to about 0.5 % up to 300 bar
// near room temperature.
func Compressibility(celsius, pascal float64) float64 {
	return 1 + HeliumVirialCM3*1e-6*pascal/(gasConstant*kelvin(celsius))
}

// HeliumDensity returns the density of pure helium in kg/m³, equal to g/L.
func HeliumDensity(celsius, pascal float64) float64 {
	return pascal * heliumMolarG * 1e-3 / (Compressibility(celsius, pascal) * gasConstant * kelvin(celsius))
}

// Cylinder is a gas cylinder. The zero Cylinder means none.
type Cylinder struct {
	// Litres is its water capacity, which is stamped on its shoulder.
	Litres float64
	// GaugeBar is the reading of its gauge, above the air outside.
	GaugeBar float64
	// TempC is its temperature.
	TempC float64
	// RatedL is the gas that it gives when full, in litres at [RatedC] and 1 atm, for cylinders sold by their gas.
	// Above 0 it takes the place of Litres and GaugeBar.
	RatedL float64
	// Ideal ignores helium's compressibility, as school problems do.
	Ideal bool
}

// RatedC is the temperature at which cylinders are rated by their gas: 70 °F, at 1 atm (from memory).
const RatedC = 21.1

// Given reports whether it says what is in the cylinder.
func (c Cylinder) Given() bool { return c.Litres > 0 || c.RatedL > 0 }

// Gas is the amount of gas in a cylinder and the amount that it can give.
type Gas struct {
	// UsableMol is the gas that can be let out. What remains is a cylinder of helium at the pressure of the air.
	UsableMol float64
	// TotalMol is all the helium in it.
	TotalMol float64
	// UsableL is the usable helium as a volume at the place's temperature and
	// air pressure.
	UsableL float64
	// Compressibility is Z at the start; 1 for an ideal gas.
	Compressibility float64
}

// Contents computes what the cylinder gives at a place. Errors wrap [ErrInput].
func (c Cylinder) Contents(at Place) (Gas, error) {
	if err := at.check("place"); err != nil {
		return Gas{}, err
	}
	if err := c.check(); err != nil {
		return Gas{}, err
	}
	volume, air := c.Litres*1e-3, at.AirPa()
	if c.RatedL > 0 {
		const atmosphere = 101_325.0
		g := Gas{UsableMol: c.molesIn(c.RatedL*1e-3, RatedC, atmosphere), Compressibility: c.z(RatedC, atmosphere)}
		g.TotalMol = g.UsableMol
		g.UsableL = g.UsableMol * c.z(at.TempC, air) * gasConstant * kelvin(at.TempC) / air * 1e3
		return g, nil
	}
	total := float64(c.GaugeBar*1e5) + air
	g := Gas{TotalMol: c.molesIn(volume, c.TempC, total), Compressibility: c.z(c.TempC, total)}
	g.UsableMol = max(0, g.TotalMol-c.molesIn(volume, c.TempC, air))
	g.UsableL = g.UsableMol * c.z(at.TempC, air) * gasConstant * kelvin(at.TempC) / air * 1e3
	return g, nil
}

func (c Cylinder) check() error {
	return inside(
		limit{"cylinder volume", c.Litres, 0, 1000, "L"},
		limit{"rated gas of the cylinder", c.RatedL, 0, 100_000, "L"},
		limit{"cylinder pressure", c.GaugeBar, 0, 350, "bar"},
		limit{"cylinder temperature", c.TempC, MinTempC, MaxTempC, "°C"},
	)
}

func (c Cylinder) z(celsius, pascal float64) float64 {
	if c.Ideal {
		return 1
	}
	return Compressibility(celsius, pascal)
}

func (c Cylinder) molesIn(cubicM, celsius, pascal float64) float64 {
	return pascal * cubicM / (c.z(celsius, pascal) * gasConstant * kelvin(celsius))
}

// Fills returns how many balloons of volumeL, with rubber at rubberPa, the usable gas of the cylinder fills at the
// place. It is rounded down once, with a tolerance of a millionth of a balloon. Gas lost at the nozzle is not
// subtracted. Errors wrap [ErrInput].
func (c Cylinder) Fills(volumeL, rubberPa float64, at Place) (int, error) {
	gas, err := c.Contents(at)
	if err != nil {
		return 0, err
	}
	if !(volumeL > 0 && volumeL < 1e6) || !(rubberPa >= 0 && rubberPa < 1e6) {
		return 0, fmt.Errorf("%w: balloon of %.4g L at %.4g Pa, accepted are volumes above 0 and pressures from 0 to 1e6 Pa",
			ErrInput, volumeL, rubberPa)
	}
	each := c.molesIn(volumeL*1e-3, at.TempC, at.AirPa()+rubberPa)
	return int(math.Min(math.Floor(gas.UsableMol/each+1e-6), 1e9)), nil
}
