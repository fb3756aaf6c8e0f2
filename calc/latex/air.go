package latex

import "math"

// StandardAir returns temperature in kelvin, pressure in pascal and density in kg/m³ of the standard atmosphere (US
// Standard Atmosphere 1976, ISO 2533, ICAO Doc 7488) at a geopotential altitude in metres, from -1000 to 11,000. Beyond
// these it uses the nearer end. Geometric altitude differs by less than 3 m at 4000 m, far less than the weather.
func StandardAir(geopotentialM float64) (kelvin, pascal, density float64) {
	const (
		seaKelvin, seaPascal = 288.15, 101_325.0
		lapse, gravity       = 0.0065, 9.80665
		// Specific gas constant of dry air in J/(kg K), from R* and M0 of that standard.
		gas = 8314.32 / 28.9644
	)
	if math.IsNaN(geopotentialM) {
		geopotentialM = 0
	}
	altitude := min(max(geopotentialM, -1000), 11_000)
	kelvin = seaKelvin - float64(lapse*altitude)
	pascal = seaPascal * math.Pow(kelvin/seaKelvin, gravity/(gas*lapse))
	return kelvin, pascal, pascal / (gas * kelvin)
}

// SaturationPa returns the pressure of water vapour over water in pascal, by the formula of CIPM-2007. It is within
// 0.05 % of handbook values at 5 to 30 °C and 1 % too low at 100 °C. It is not meant for ice.
func SaturationPa(celsius float64) float64 {
	t := celsius + 273.15
	return math.Exp(float64(1.2378847e-5*t*t) - float64(1.9121316e-2*t) + 33.93711047 - float64(6.3431645e3/t))
}

// MoistAirDensity returns the density of air in kg/m³ (equal to g/L) at a temperature, pressure and relative humidity
// in percent, with 400 ppm carbon dioxide: Picard, Davis, Gläser, Fujii, Metrologia 45 (2008) 149, "CIPM-2007". It is
// meant for 600 to 1100 hPa and 15 to 27 °C. Beyond that it is an extrapolation, good to better than 0.1 % at the
// temperatures that this package accepts.
func MoistAirDensity(celsius, pascal, humidityPct float64) float64 {
	const (
		gas      = 8.314472
		dryMolar = 28.96546e-3
		wetMolar = 18.01528e-3
	)
	t, kelvin := celsius, celsius+273.15
	enhancement := 1.00062 + float64(3.14e-8*pascal) + float64(5.6e-7*t*t)
	wet := humidityPct / 100 * enhancement * SaturationPa(celsius) / pascal
	ratio := pascal / kelvin
	first := 1.58123e-6 - float64(2.9331e-8*t) + float64(1.1043e-10*t*t) +
		float64((5.707e-6-float64(2.051e-8*t))*wet) + float64((1.9898e-4-float64(2.376e-6*t))*wet*wet)
	second := 1.83e-11 - float64(0.765e-8*wet*wet)
	z := 1 - float64(ratio*first) + float64(ratio*ratio*second)
	return pascal * dryMolar / (z * gas * kelvin) * (1 - float64(wet*(1-wetMolar/dryMolar)))
}

// Place is the air around a balloon. The zero Place is 0 °C at sea level, dry.
type Place struct {
	TempC     float64
	AltitudeM float64
	// HumidityPct is the relative humidity, 0 to 100. Only lift uses it.
	HumidityPct float64
	// PressurePa is the air pressure if known, for example from a barometer. 0 means that of the standard atmosphere at
	// the altitude.
	PressurePa float64
}

// AirPa returns the air pressure in pascal.
func (p Place) AirPa() float64 {
	if p.PressurePa > 0 {
		return p.PressurePa
	}
	_, pascal, _ := StandardAir(p.AltitudeM)
	return pascal
}

// AirDensity returns the density of the air in kg/m³, equal to g/L.
func (p Place) AirDensity() float64 { return MoistAirDensity(p.TempC, p.AirPa(), p.HumidityPct) }

func (p Place) check(name string) error { return p.checkBetween(name, MinTempC, MaxTempC) }

func (p Place) checkBetween(name string, coldest, hottest float64) error {
	if err := inside(
		limit{name + " temperature", p.TempC, coldest, hottest, "°C"},
		limit{name + " altitude", p.AltitudeM, MinAltitudeM, MaxAltitudeM, "m"},
		limit{name + " humidity", p.HumidityPct, 0, 100, "%"},
	); err != nil {
		return err
	}
	if p.PressurePa == 0 {
		return nil
	}
	return within(name+" air pressure", p.PressurePa, 40_000, 110_000, "Pa")
}
