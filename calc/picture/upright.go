package picture

import "garlandry/calc/cluster"

// tower stacks rings around upright poles.
type tower struct {
	clusters Clusters
	rings    []ring
	pitch    float64 // from one layer to the next
	first    float64 // height of the centres of the first layer
	widest   float64 // half the width of the widest ring, with its balloons
	balloons []Balloon
}

// newTower makes the rings. A pitch of 0 is the mean pitch of the clusters.
func newTower(clusters Clusters, push cluster.Push, pitchMM float64) *tower {
	t := &tower{clusters: clusters, rings: make([]ring, len(clusters.Recipes))}
	pitches, sum := make([]float64, len(clusters.Recipes)), 0.0
	for _, recipe := range clusters.Order {
		g := &t.rings[recipe]
		if g.members == nil {
			*g = ringOf(membersOf(clusters.Recipes[recipe]))
			pitches[recipe] = cluster.PitchMM(clusters.Recipes[recipe], push)
		}
		t.first = max(t.first, g.largest)
		t.widest = max(t.widest, g.radius+g.largest)
		sum += pitches[recipe]
	}
	if t.pitch = pitchMM; !(pitchMM > 0) {
		t.pitch = sum / float64(max(len(clusters.Order), 1))
	}
	if !(t.pitch > 0) {
		t.pitch = 2 * t.first
	}
	return t
}

// stack adds clusters around a pole at x, from the floor up. Each ring is turned half a step against the one below,
// and the first by half a step if it is told so. girth, unless 0, is how far balloons may reach from the pole to the
// sides; wider rings are pressed flat.
func (t *tower) stack(from, to int, x float64, halfStep bool, girth float64) {
	cos, sin := 1.0, 0.0
	for i := from; i < to; i++ {
		g := &t.rings[t.clusters.Order[i]]
		if i > from || halfStep {
			cos, sin = turned(cos, sin, g.halfCos, g.halfSin)
		}
		flat := 1.0
		if room := girth - g.largest; girth > 0 && room < g.radius {
			flat = max(room/g.radius, 0)
		}
		for _, m := range g.turned(cos, sin) {
			t.balloons = append(t.balloons, Balloon{
				XMM: x + float64(m.across*flat), YMM: t.first + float64(float64(i-from)*t.pitch),
				DepthMM: m.depth * (2 - flat), RadiusMM: m.radius, Cluster: i, Part: m.part, Slot: m.slot,
			})
		}
	}
}

// share returns where the clusters of one of several equal stacks begin. Leftovers go to the first ones.
func (t *tower) share(stack, stacks int) int {
	n := len(t.clusters.Order)
	return stack*(n/stacks) + min(stack, n%stacks)
}

// columnGap is the gap between columns, and footWidth the width of a foot, as shares of the width of a column.
const (
	columnGap = 0.5
	footWidth = 0.8
)

// Column returns columns side by side, with their poles and feet. The left edge of the first is at X = 0, the foot at
// Y = 0. The clusters are shared out equally, column by column and upwards. A pitch of 0 is that of the clusters.
func Column(clusters Clusters, push cluster.Push, columns int, pitchMM float64) ([]Balloon, []Line) {
	if len(clusters.Order) == 0 {
		return nil, nil
	}
	columns = min(max(columns, 1), len(clusters.Order))
	t := newTower(clusters, push, pitchMM)
	var lines []Line
	for c := range columns {
		from, to := t.share(c, columns), t.share(c+1, columns)
		x := t.widest + float64(float64(c)*2*t.widest*(1+columnGap))
		t.stack(from, to, x, false, 0)
		top := float64(2*t.first) + float64(float64(to-from-1)*t.pitch)
		lines = append(lines, straight(Pole, x, 0, x, top),
			straight(Foot, x-float64(t.widest*footWidth), 0, x+float64(t.widest*footWidth), 0))
	}
	return t.balloons, lines
}

// Wall returns upright strings side by side, each so far from the last. The first looks as wide as its clusters do
// on a string, and its left edge is at X = 0. Every second string is turned by half a step, so that neighbours nest
// as cluster.SideBySideMM counts them. Rings wider than a string's girth are pressed flat. The clusters are shared
// out equally, string by string and upwards.
func Wall(clusters Clusters, push cluster.Push, strips int, apartMM float64) []Balloon {
	if len(clusters.Order) == 0 {
		return nil
	}
	strips = min(max(strips, 1), len(clusters.Order))
	t := newTower(clusters, push, 0)
	width, girth := 0.0, 0.0
	for i, recipe := range clusters.Recipes {
		if t.rings[i].members == nil {
			continue
		}
		shown := cluster.Measure(recipe, push)
		width, girth = max(width, shown.WidthMM), max(girth, shown.WidestMM/2)
	}
	for s := range strips {
		t.stack(t.share(s, strips), t.share(s+1, strips), width/2+float64(float64(s)*apartMM), s%2 == 1, girth)
	}
	return t.balloons
}
