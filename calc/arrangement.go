package calc

import (
	"cmp"
	"garlandry/calc/cluster"
	"garlandry/calc/softsphere"
	"garlandry/calc/stable"
)

// drawnBalloon is a balloon seen from the front: its place along and across the string, and its depth towards the
// viewer.
type drawnBalloon struct{ along, across, depth, radius float64 }

// arrangement holds some clusters of a string, which repeat after period.
type arrangement struct {
	balloons []drawnBalloon
	clusters int
	period   float64
}

// mostArranged is the number of clusters of a string that are laid out; longer strings repeat them. It is the smallest
// number that calc/softsphere relaxes, so that the last rests against the first.
const mostArranged = 10

// arrange lays out clusters of a recipe along a string, at most mostArranged, the first around along = 0. It returns
// none if the recipe cannot be laid out.
func arrange(r cluster.Recipe, push cluster.Push, clusters int) arrangement {
	clusters = min(clusters, mostArranged)
	rest, err := cluster.Arrange(r, push, clusters)
	if err != nil || clusters < 1 {
		return arrangement{}
	}
	strung := arrangement{seenFromTheFront(rest), clusters, rest.LengthMM}
	for i := range strung.balloons {
		strung.balloons[i].along -= rest.PitchMM() / 2
	}
	return strung
}

// arrangeOne lays out the balloons of one free cluster. It returns none if the recipe cannot be laid out.
func arrangeOne(r cluster.Recipe) []drawnBalloon {
	rest, err := cluster.ArrangeOne(r)
	if err != nil {
		return nil
	}
	return seenFromTheFront(rest)
}

func seenFromTheFront(rest softsphere.Rest) []drawnBalloon {
	seen := make([]drawnBalloon, len(rest.Balloons))
	for i, b := range rest.Balloons {
		seen[i] = drawnBalloon{b.Z, b.X, b.Y, b.Radius}
	}
	return seen
}

// repeated continues the arrangement to a number of clusters, starting shift clusters further on.
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

// lying draws balloons of a horizontal string through x, y, from left to right.
func (s *sketch) lying(role Role, x, y float64, balloons []drawnBalloon) {
	for _, b := range backToFront(balloons) {
		s.circle(role, x+b.along, y+b.across, b.radius)
	}
}

// standing draws balloons of a vertical string from x, y upwards.
func (s *sketch) standing(role Role, x, y float64, balloons []drawnBalloon) {
	for _, b := range backToFront(balloons) {
		s.circle(role, x+b.across, y+b.along, b.radius)
	}
}

func backToFront(balloons []drawnBalloon) []drawnBalloon {
	ordered := append([]drawnBalloon(nil), balloons...)
	stable.Sort(ordered, func(a, b drawnBalloon) int { return cmp.Compare(a.depth, b.depth) })
	return ordered
}
