package cargo

import "math"

// packingFraction returns the part of the space that balls of diameterMM fill when poured in at random: 0.61 far from
// the walls, less in a narrow space, because a wall keeps a looser layer. It is 1 minus the void fraction of spheres in
// a tube measured by Benyahia & O'Neill (Particulate Science and Technology 23, 2005, 169-177; average error 1.5 %,
// tubes 1.5 to 50 balls wide): 0.390 + 1.740/(D/d + 1.140)². For a box, D is that of the tube with the same ratio of
// wall to volume, 4 x volume / surface.
func (r room) packingFraction(diameterMM float64) float64 {
	a, b, c := r.sides[0], r.sides[1], r.sides[2]
	// 4 V / S, written so that it grows with every side even in the last bit.
	widthMM := 2 / (1/a + 1/b + 1/c)
	ratio := widthMM/diameterMM + 1.140
	return 1 - (0.390 + 1.740/float64(ratio*ratio))
}

// packedMM returns the diameter of the sphere that holds as much as a ball, at least its own diameter.
func (b Balls) packedMM() float64 {
	return math.Max(b.DiameterMM, math.Cbrt(b.AirL*mm3PerLitre*6/math.Pi))
}

// ballLitres returns the room that one ball of many needs, gaps included. They are poured in, or set in rows if that
// holds more, as for a few large balls. No more go in than fill [MostPacking]; a ball alone that fills more needs more
// than the room has.
func (r room) ballLitres(diameterMM float64) float64 {
	least := float64(math.Pi/6*diameterMM*diameterMM*diameterMM) / mm3PerLitre / MostPacking
	ball := least * MostPacking
	poured := math.Floor(r.packingFraction(diameterMM)*r.litres()/ball + wholeTolerance)
	rows := 1.0
	for _, side := range r.sides {
		rows *= math.Floor(side/diameterMM + wholeTolerance)
	}
	rows = math.Floor(float64(rows*r.usable) + wholeTolerance)
	return math.Max(least, r.litres()/math.Max(1, math.Max(poured, rows)))
}

// usualFraction is the packing fraction of 11-inch balloons filled to 10 in, in a car of 1600 litres. [CommonPacking]
// was determined with those.
const usualFraction = 0.5

// packedLitres returns the room that a cluster or section needs: its air divided by the packing. Balloons that are more
// affected by the walls than usual fill less in proportion, down to a fifth: no voids were measured for balloons as
// large as the space.
func (r room) packedLitres(f Filling, packing float64) float64 {
	walls := math.Min(1, math.Max(0.2, r.packingFraction(f.BalloonMM)/usualFraction))
	return f.AirL / (math.Min(MostPacking, packing) * walls)
}

// wholeTolerance is the rounding error that a whole number may miss.
const wholeTolerance = 1e-9
