package cargo

import "math"

// packingFraction is the part of the space that balls of diameterMM fill when they are poured in at random: 0.61 far
// from the walls, less in a narrow space because the walls keep a looser layer. It is 1 minus the void fraction of
// spheres in a tube measured by Benyahia & O'Neill (Particulate Science and Technology 23, 2005, 169-177; average error
// 1.5 %, tubes 1.5 to 50 balls wide): 0.390 + 1.740/(D/d + 1.140)². For a box D is that of the tube with as much wall
// to its volume, 4 x volume / surface.
func (r room) packingFraction(diameterMM float64) float64 {
	a, b, c := r.sides[0], r.sides[1], r.sides[2]
	// 4 V / S, written so that it grows with every side, to the last bit.
	widthMM := 2 / (1/a + 1/b + 1/c)
	ratio := widthMM/diameterMM + 1.140
	return 1 - (0.390 + 1.740/float64(ratio*ratio))
}

// ballsPerTrip returns how many balls of one size fill the room, at least 1. They are poured in, or set in rows where
// that holds more, as for a few large ones.
func (r room) ballsPerTrip(diameterMM float64) int {
	ballLitres := math.Pi / 6 * diameterMM * diameterMM * diameterMM / mm3PerLitre
	poured := math.Floor(r.packingFraction(diameterMM)*r.litres()/ballLitres + wholeTolerance)
	rows := 1.0
	for _, side := range r.sides {
		rows *= math.Floor(side/diameterMM + wholeTolerance)
	}
	rows = math.Floor(float64(rows*r.usable) + wholeTolerance)
	return int(math.Max(1, math.Max(poured, rows)))
}

// usualFraction is the packing fraction of 11-inch balloons sized to 10 in, in a car of 1600 litres: [CommonPacking]
// was found with those.
const usualFraction = 0.5

// packedLitres is the room that a cluster or section takes: its air over the
// packing. Balloons that feel the walls more than usual fill less in proportion,
// down to a fifth: for balloons as large as the space no voids were measured.
func (r room) packedLitres(f Filling, packing float64) float64 {
	return f.AirL / (packing * math.Min(1, math.Max(0.2, r.packingFraction(f.BalloonMM)/usualFraction)))
}

// wholeTolerance rounds up a number that misses a whole one only by rounding.
const wholeTolerance = 1e-9
