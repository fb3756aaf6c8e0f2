package picture

import (
	"math"

	"garlandry/calc/cluster"
	"garlandry/calc/outline"
)

// Base is one of several bases on a line: its length and how many of the clusters are its.
type Base struct {
	LengthMM float64
	Clusters int
}

// Strung returns the balloons of a base along a line, and the line. The clusters fill the line: the first knot is
// half a pitch from its start, and all pitches are stretched by the same factor. Inside a tight curve balloons stop
// short of the centre of the curve. Several bases lie one after another from the start of the line, each filled for
// itself, with free ends; they are squeezed together if they are longer than the line. Errors are those of
// outline.Points.
func Strung(shape outline.Shape, clusters Clusters, push cluster.Push, bases ...Base) ([]Balloon, Line, error) {
	points := min(max(8*len(clusters.Order), 64)+1, outline.MostPoints)
	if shape.Kind == outline.Line {
		points = 2
	}
	line, err := outline.Points(shape, points)
	if err != nil {
		return nil, Line{}, err
	}
	lengthMM, err := outline.Length(shape)
	if err != nil {
		return nil, Line{}, err
	}
	if len(bases) == 0 {
		bases = []Base{{lengthMM, len(clusters.Order)}}
	}
	sum := 0.0
	for _, base := range bases {
		sum += base.LengthMM
	}
	var balloons []Balloon
	models := make([]model, len(clusters.Recipes))
	from, squeeze := 0.0, 1.0
	if sum > lengthMM {
		squeeze = lengthMM / sum
	}
	for at, i := 0, 0; i < len(bases); i++ {
		long, to := float64(bases[i].LengthMM*squeeze), min(at+bases[i].Clusters, len(clusters.Order))
		one := strungOn(long, Clusters{clusters.Recipes, clusters.Order[at:to], clusters.Rests}, push, models)
		for k := range one {
			one[k].XMM += from
			one[k].Cluster += at
		}
		balloons, from, at = append(balloons, one...), from+long, to
	}
	bend := newBend(line, lengthMM)
	for i := range balloons {
		b := &balloons[i]
		at := bend.at(b.XMM, b.YMM)
		b.XMM, b.YMM = at.XMM, at.YMM
	}
	return balloons, Line{String, line}, nil
}

// strungOn returns the balloons of a base on a straight string from 0 to the right.
// It fills in the models that it needs, one for each recipe.
func strungOn(lengthMM float64, clusters Clusters, push cluster.Push, models []model) []Balloon {
	w := walk{models: models, order: clusters.Order, turnCos: 1}
	whole := 0.0
	for _, recipe := range clusters.Order {
		if w.models[recipe].clusters == nil {
			w.models[recipe] = clusters.Rests.modelOf(clusters.Recipes[recipe], push)
		}
		whole += w.models[recipe].pitch
	}
	stretch, along := lengthMM/whole, 0.0
	for i, recipe := range clusters.Order {
		pitch := w.models[recipe].pitch * stretch
		w.add(i, recipe, along+pitch/2)
		along += pitch
	}
	return w.balloons
}

// longestRun is the number of clusters that follow each other as in the model.
const longestRun = modelled

// Numbers of turns about the string that are tried for every pose: fewer for short runs, of which there are many.
const (
	turnsLong  = 12
	turnsShort = 2
)

// reachAhead is the number of clusters on either side of a seam that may touch across it.
const reachAhead = 3

// A new run does not look like one of the last.
const (
	remembered   = 32   // runs
	fewRuns      = 6    // runs that a person can see at once
	nearlyTurned = 0.94 // cosine of 20 degrees
	usedMisfit   = 1e30
)

// pose is how a run of clusters shows those of its model.
type pose struct {
	recipe, first int
	mirrored      bool // left and right are swapped
	reversed      bool // the run goes through the model from its end
	cos, sin      float64
}

// walk goes along a string and places the clusters. They continue as in the model for a run. Then the next run starts
// in the pose in which its first cluster fits best against those already there.
type walk struct {
	models           []model
	order            []int
	balloons         []Balloon
	starts           []int // where each cluster's balloons begin
	now              pose
	run              int // clusters in this run
	poses            []pose
	turnCos, turnSin float64
	placed           []Balloon
}

// The golden angle, by which successive turns differ: no two of them are ever equal.
const goldenCos, goldenSin = -0.73736887807831985597, 0.67549029426152362720

func (w *walk) add(i, recipe int, alongMM float64) {
	w.starts = append(w.starts, len(w.balloons))
	if i == 0 || recipe != w.now.recipe || w.run == longestRun {
		ahead := 1
		for ahead < reachAhead && i+ahead < len(w.order) && w.order[i+ahead] == recipe {
			ahead++
		}
		w.now, w.run = w.best(recipe, ahead, alongMM), 0
		w.poses = append(w.poses, w.now)
	}
	w.balloons = w.place(w.balloons, w.now, w.run, alongMM)
	for k := w.starts[i]; k < len(w.balloons); k++ {
		w.balloons[k].Cluster = i
	}
	w.run++
}

// place appends the balloons of one cluster of a run.
func (w *walk) place(to []Balloon, p pose, run int, alongMM float64) []Balloon {
	all := w.models[p.recipe].clusters
	at := (p.first + run) % len(all)
	along, depth := 1.0, 1.0
	if p.reversed {
		at = len(all) - 1 - at
		along, depth = -1, -1
	}
	if p.mirrored {
		depth = -depth
	}
	for _, m := range all[at] {
		deep := m.depth * depth
		to = append(to, Balloon{
			XMM:      alongMM + float64(m.along*along),
			YMM:      float64(m.across*p.cos) - float64(deep*p.sin),
			DepthMM:  float64(m.across*p.sin) + float64(deep*p.cos),
			RadiusMM: m.radius, Part: m.part, Slot: m.slot,
		})
	}
	return to
}

// best returns the pose in which the first clusters of the next run fit best. What has been used is the
// last choice.
func (w *walk) best(recipe, ahead int, alongMM float64) pose {
	best, least := pose{recipe: recipe, cos: 1}, math.Inf(1)
	if len(w.balloons) == 0 {
		return best
	}
	before, pitch := w.balloons[w.starts[max(len(w.starts)-1-reachAhead, 0)]:], w.models[recipe].pitch
	turns := turnsShort
	if ahead == reachAhead {
		turns = turnsLong
	}
	for kind := range 4 * len(w.models[recipe].clusters) {
		p := pose{recipe: recipe, first: kind / 4, mirrored: kind&1 == 1, reversed: kind&2 == 2}
		for range turns {
			w.turnCos, w.turnSin = turned(w.turnCos, w.turnSin, goldenCos, goldenSin)
			p.cos, p.sin = w.turnCos, w.turnSin
			misfit := 0.0
			if w.looksUsed(&p) {
				misfit = usedMisfit
			}
			for k := 0; k < ahead && misfit < least; k++ {
				w.placed = w.place(w.placed[:0], p, k, alongMM+float64(float64(k)*pitch))
				misfit = overlap(w.placed, before, misfit, least)
			}
			if misfit < least {
				best, least = p, misfit
			}
		}
	}
	return best
}

// looksUsed reports whether one of the last runs looks nearly the same from the front: the same clusters, or in the
// last few any clusters, turned by nearly as much. A mirrored run looks like one that is turned the other way.
func (w *walk) looksUsed(p *pose) bool {
	for i := max(len(w.poses)-remembered, 0); i < len(w.poses); i++ {
		old := &w.poses[i]
		if old.recipe != p.recipe || old.reversed != p.reversed ||
			old.first != p.first && i < len(w.poses)-fewRuns {
			continue
		}
		sin := old.sin * p.sin
		if old.mirrored != p.mirrored {
			sin = -sin
		}
		if float64(old.cos*p.cos)+sin > nearlyTurned {
			return true
		}
	}
	return false
}

// overlap adds the fourth powers of the overlaps between two groups of balloons to a sum, until it is not below a
// limit.
func overlap(some, others []Balloon, sum, limit float64) float64 {
	for i := range some {
		a := &some[i]
		for k := len(others) - 1; k >= 0; k-- {
			b := &others[k]
			touch, dx := a.RadiusMM+b.RadiusMM, a.XMM-b.XMM
			if dx >= touch {
				continue
			}
			if apart := square(dx, a.YMM-b.YMM, a.DepthMM-b.DepthMM); apart < touch*touch {
				deep := touch - math.Sqrt(apart)
				sum += float64(deep * deep * deep * deep)
			}
		}
		if sum >= limit {
			break
		}
	}
	return sum
}

// turned turns a direction by an angle given as cosine and sine, and keeps its length 1.
func turned(x, y, cos, sin float64) (float64, float64) {
	x, y = float64(x*cos)-float64(y*sin), float64(x*sin)+float64(y*cos)
	length := math.Sqrt(square(x, y, 0))
	return x / length, y / length
}
