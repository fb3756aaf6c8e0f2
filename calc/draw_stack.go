package calc

import (
	"math"
	"sort"

	"garlandry/calc/cluster"
)

// drawStack draws layers of a recipe on an upright string at x, the lowest
// standing on the floor; turned shifts the turn of every other layer by one.
func drawStack(s *sketch, r cluster.Recipe, x, thick, pitch, first float64, layers, turned int) {
	diameters := r.DiametersMM()
	for layer := range layers {
		y := first/2 + float64(layer)*pitch
		var drawn []drawnBalloon
		for i, d := range diameters {
			angle := 2 * math.Pi * (float64(i) + 0.25 + 0.5*float64((layer+turned)%2)) / float64(len(diameters))
			reach := math.Max(thick/2-d/2, 0)
			drawn = append(drawn, drawnBalloon{x + float64(reach*math.Sin(angle)), y, reach * math.Cos(angle), d / 2})
		}
		sort.SliceStable(drawn, func(a, b int) bool { return drawn[a].depth < drawn[b].depth })
		for _, b := range drawn {
			s.circle(RoleBalloon, at(b.x, b.y), b.radius)
		}
	}
}
