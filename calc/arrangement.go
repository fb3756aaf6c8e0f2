package calc

import (
	"math"
	"sort"

	"garlandry/calc/cluster"
	"garlandry/calc/nest"
)

// drawnBalloon is a balloon seen from the front: along and across the string,
// and how near it is to the viewer.
type drawnBalloon struct{ along, across, depth, radius float64 }

// arrangement is some clusters of a string, which repeat after period.
type arrangement struct {
	balloons []drawnBalloon
	clusters int
	period   float64
}

// arrange places clusters of a recipe along a string. Relaxed ones come from the
// soft-sphere model, which takes tens of milliseconds; the others are plain rings
// of the same pitch and thickness, each turned against the one before.
func arrange(r cluster.Recipe, push cluster.Push, clusters int, relaxed bool) arrangement {
	pitch := cluster.PitchMM(r, push)
	result := arrangement{clusters: clusters, period: float64(clusters) * pitch}
	if relaxed {
		if rest, err := cluster.Arrange(r, push, clusters); err == nil {
			result.balloons = seenFromTheFront(rest)
			return result
		}
	}
	thick := cluster.GirthMM(r, push)
	for k := range clusters {
		result.balloons = append(result.balloons, ring(r, float64(k)*pitch, thick, k)...)
	}
	return result
}

// arrangeOne places the balloons of one free cluster.
func arrangeOne(r cluster.Recipe, relaxed bool) []drawnBalloon {
	if relaxed {
		if rest, err := cluster.ArrangeOne(r); err == nil {
			return seenFromTheFront(rest)
		}
	}
	face := ring(r, 0, cluster.BallMM(r), 0)
	for i, b := range face {
		face[i].along, face[i].depth = b.depth, b.along
	}
	return face
}

func seenFromTheFront(rest nest.Rest) []drawnBalloon {
	seen := make([]drawnBalloon, len(rest.Balloons))
	for i, b := range rest.Balloons {
		seen[i] = drawnBalloon{b.Z, b.X, b.Y, b.Radius}
	}
	return seen
}

// ring is a flat ring of the recipe's balloons, thick across, turned by half a
// step when turn is odd.
func ring(r cluster.Recipe, along, thick float64, turn int) []drawnBalloon {
	diameters := r.DiametersMM()
	balloons := make([]drawnBalloon, len(diameters))
	for i, d := range diameters {
		angle := 2 * math.Pi * (float64(i) + 0.25 + 0.5*float64(turn%2)) / float64(len(diameters))
		reach := math.Max(thick/2-d/2, 0)
		balloons[i] = drawnBalloon{along, reach * math.Sin(angle), reach * math.Cos(angle), d / 2}
	}
	return balloons
}

// repeated is the arrangement continued to a number of clusters, starting shift
// clusters further on.
func (a arrangement) repeated(clusters, shift int) []drawnBalloon {
	if a.clusters < 1 {
		return nil
	}
	pitch := a.period / float64(a.clusters)
	perCluster := len(a.balloons) / a.clusters
	var all []drawnBalloon
	for k := range clusters {
		from := (k + shift) % a.clusters
		moved := float64(k-from) * pitch
		for _, b := range a.balloons[from*perCluster : (from+1)*perCluster] {
			b.along += moved
			all = append(all, b)
		}
	}
	return all
}

// lying draws balloons of a string that lies from left to right through from.
func (s *sketch) lying(role Role, from Dot, balloons []drawnBalloon) {
	for _, b := range backToFront(balloons) {
		s.circle(role, at(from.XMM+b.along, from.YMM+b.across), b.radius)
	}
}

// standing draws balloons of a string that goes up from from.
func (s *sketch) standing(role Role, from Dot, balloons []drawnBalloon) {
	for _, b := range backToFront(balloons) {
		s.circle(role, at(from.XMM+b.across, from.YMM+b.along), b.radius)
	}
}

func backToFront(balloons []drawnBalloon) []drawnBalloon {
	ordered := append([]drawnBalloon(nil), balloons...)
	sort.SliceStable(ordered, func(a, b int) bool { return ordered[a].depth < ordered[b].depth })
	return ordered
}
