package softsphere

import "math"

// enclosingSteps are the steps towards the centre of the enclosing sphere. They bring it within a thousandth.
const enclosingSteps = 3000

// BallMM returns the diameter of the smallest sphere that holds a free cluster. Its centre moves towards the balloon
// that reaches furthest, in steps that get shorter (Badoiu and Clarkson, "Smaller Core-Sets for Balls", 2003).
func (r Rest) BallMM() float64 {
	least := math.Inf(1)
	var x, y, z float64
	for step := range enclosingSteps {
		reach, far, dx, dy, dz := 0.0, 0.0, 0.0, 0.0, 0.0
		for _, b := range r.Balloons {
			ox, oy, oz := b.X-x, b.Y-y, b.Z-z
			away := math.Sqrt(float64(ox*ox) + float64(oy*oy) + float64(oz*oz))
			if away+b.Radius > reach {
				reach, far, dx, dy, dz = away+b.Radius, away, ox, oy, oz
			}
		}
		least = min(least, reach)
		if far == 0 {
			break
		}
		share := reach / far / float64(step+2)
		x, y, z = x+float64(share*dx), y+float64(share*dy), z+float64(share*dz)
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return 2 * least
}

// sides is the number of directions from which a free cluster is seen.
const sides = 128

// SeenMM returns the size that a free cluster seems to have: the diameter of the disc that hides as much as the
// cluster does, as a mean over directions. They lie on a spiral over half a sphere, each turned against the one before
// by the golden angle, so that they are spread evenly.
func (r Rest) SeenMM() float64 {
	if len(r.Balloons) == 0 {
		return 0
	}
	const turnCos, turnSin = -0.73736887807831985597, 0.67549029426152362720
	reach := 0.0
	for _, b := range r.Balloons {
		reach = max(reach, math.Sqrt(float64(b.X*b.X)+float64(b.Y*b.Y)+float64(b.Z*b.Z))+b.Radius)
	}
	raster := newRaster(2*reach, 2*reach, r.meanDiameter()/fineness)
	turned := make([]Balloon, len(r.Balloons))
	sum, c, s := 0.0, 1.0, 0.0
	for side := range sides {
		up := (float64(side) + 0.5) / sides
		flat := math.Sqrt(1 - float64(up*up))
		for i, b := range r.Balloons {
			// The view is along (flat c, flat s, up); across it are (-s, c, 0) and (-up c, -up s, flat).
			towards := float64(c*b.X) + float64(s*b.Y)
			turned[i] = Balloon{
				X: float64(c*b.Y) - float64(s*b.X), Z: reach + float64(flat*b.Z) - float64(up*towards),
				Radius: b.Radius,
			}
		}
		sum += raster.cover(turned, [2]float64{1, 0})
		c, s = float64(c*turnCos)-float64(s*turnSin), float64(s*turnCos)+float64(c*turnSin)
	}
	area := float64(4*reach*reach) * sum / sides
	return math.Sqrt(area * 4 / math.Pi)
}
