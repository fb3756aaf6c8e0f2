package rig

import "math"

const (
	// AirDensity is the density in kg/m³ for wind pressure. EN 1991-1-4 clause 4.5 recommends 1.25, two percent more
	// than standard air at sea level.
	AirDensity = 1.25
	// PlateDrag is the drag coefficient of a flat plate across the wind: NASA
	// Glenn Research Center, "Shape effects on drag", 1.28.
	PlateDrag = 1.28
	// BarDrag is the drag coefficient of the bars of a very open face, on their own area (from memory, after the charts
	// for lattices in EN 1991-1-4).
	BarDrag = 1.9
	// GustFactor is a gust divided by the mean wind of a forecast or of the Beaufort scale (from memory).
	GustFactor = 1.5
	// HighestWindMPS is the highest wind for light décor of any weight: the top of Beaufort 5, near the 38 km/h that is
	// commonly advised for small inflatables and tents (from memory).
	HighestWindMPS = 10.7
)

// WindPressurePa returns the pressure of moving air, half density times speed squared. density 0 means [AirDensity].
func WindPressurePa(mps, density float64) float64 {
	return 0.5 * orDefault(density, AirDensity) * mps * mps
}

// GustMPS returns the strongest gust to expect in a mean wind, by [GustFactor].
func GustMPS(meanMPS float64) float64 { return GustFactor * meanMPS }

// Drag returns the drag coefficient of a face, on its whole outline, by its solidity: the share that stops the wind (1
// closed, 0.3 an open frame with ribbons). Closed, it is [PlateDrag]. In a more open face each bar catches more wind,
// up to [BarDrag] times its own area. It never falls with solidity.
func Drag(solidity float64) float64 {
	s := min(max(solidity, 0), 1)
	if math.IsNaN(s) {
		return PlateDrag
	}
	return s * (BarDrag - float64((BarDrag-PlateDrag)*s))
}
