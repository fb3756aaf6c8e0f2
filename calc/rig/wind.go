package rig

const (
	// AirDensity is the density in kg/m³ for wind pressure. EN 1991-1-4 clause 4.5 recommends 1.25, two percent more
	// than standard air at sea level.
	AirDensity = 1.25
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
