package look

import (
	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/calc/cluster"
	"garlandry/calc/outline"
	"garlandry/calc/picture"
)

// MostDrawn is the most balloons of a piece that has a picture. With more, a phone would compute for seconds, and a
// screen could not show them.
const MostDrawn = 4000

// Figures are what a look takes from the tables.
type Figures struct {
	Push cluster.Push
}

// FiguresOf takes the figures from a draft.
func FiguresOf(d *count.Draft) Figures { return Figures{Push: d.Push} }

// Of returns what a counted piece looks like: exactly its balloons. It returns nil for a piece of more than
// [MostDrawn], and for one whose balloons are not dealt.
func Of(c *count.PieceCount, f Figures) *Look {
	if len(c.Laid.Deals) == 0 || c.Balloons > MostDrawn {
		return nil
	}
	l := &Look{Clusters: len(c.Laid.Deals)}
	base := l.base(c, f)
	if base == nil {
		return nil
	}
	if l.Stands {
		picture.OnFloor(base)
	}
	l.colourIn(&c.Laid, base, 0, false)
	if c.Form == count.Bunched && c.Piece.Gas == "helium" {
		for i := range l.Balloons {
			l.Balloons[i].Knotted = true
		}
	}
	for i, on := range c.On() {
		balloons := l.on(c, on, base)
		if l.Stands {
			picture.OnFloor(balloons)
		}
		l.colourIn(&on.Laid, balloons, i+1, on.ID == "")
		base = append(base, balloons...)
	}
	if c.Piece.Pattern == job.Patterns()[0].Value || c.Piece.Pattern == job.ByHand {
		l.mingle(0)
	}
	l.close()
	return l
}

// on places a layer on what is there already.
func (l *Look) on(c *count.PieceCount, on *count.LayerCount, below []picture.Balloon) []picture.Balloon {
	line, side, end := l.line, picture.Front, 1.0
	if len(c.Bases) > 0 {
		end = l.covered
	}
	if on.ID != "" {
		side = sideOf(on.Side, c.Form)
		if c.Form == count.Stacked || c.Form == count.Strips { // from the foot up, however wide it is
			e := picture.ExtentOf(below)
			middle := (e.LeftMM + e.RightMM) / 2
			line = []outline.Point{{XMM: middle, YMM: e.BottomMM}, {XMM: middle, YMM: e.TopMM}}
		}
	}
	return picture.Beside(below, line, float64(end*on.FromPct)/100, float64(end*on.ToPct)/100, side, clustersOf(&on.Laid))
}

// sideOf returns where a layer sits on the width of a base. Only a string has an outer side.
func sideOf(side string, form count.Form) picture.Side {
	switch {
	case form != count.Strung:
	case side == "outer":
		return picture.Outer
	case side == "inner":
		return picture.Inner
	}
	return picture.Round
}

// base places the balloons of the base.
func (l *Look) base(c *count.PieceCount, f Figures) []picture.Balloon {
	clusters := clustersOf(&c.Laid)
	var balloons []picture.Balloon
	var lines []picture.Line
	switch c.Form {
	case count.Strung:
		balloons, lines = l.strung(c, clusters, f.Push)
	case count.Stacked:
		balloons, lines = picture.Column(clusters, f.Push, c.Laid.Strands, c.PitchMM)
		l.Stands = true
	case count.Strips:
		balloons = picture.Wall(clusters, f.Push, c.Laid.Strands, c.ApartMM)
		l.Stands = true
	case count.Pressed:
		return l.pressed(c)
	default:
		return l.bunched(c)
	}
	for _, line := range lines {
		l.Lines = append(l.Lines, lineOf(line))
	}
	return balloons
}

// ringPoints is the number of points by which the ring of a hoop is drawn.
const ringPoints = 73

// strung places a base along its line. A line with a foot stands on the floor.
func (l *Look) strung(
	c *count.PieceCount,
	clusters picture.Clusters,
	push cluster.Push,
) ([]picture.Balloon, []picture.Line) {
	shape := outline.Shape{Kind: outline.Line, LengthMM: c.LengthMM}
	if kind, _ := count.KindOf(count.Kinds(), c.Piece.Kind); kind.Line != nil {
		if line, bent := kind.Line(c.Piece); bent {
			shape, l.Stands = line, line.Kind != outline.Arc
		}
	}
	var bases []picture.Base
	for _, base := range c.Bases {
		bases = append(bases, picture.Base(base))
	}
	balloons, line, err := picture.Strung(shape, clusters, push, bases...)
	if err != nil {
		return nil, nil
	}
	if long, err := outline.Length(shape); err == nil {
		l.covered = min(1, c.LengthMM/long)
	}
	l.line = line.Points
	if shape.Kind != outline.Hoop {
		return balloons, nil // the string is within the balloons
	}
	shape.Part = 1 // the rest of the ring is seen
	ring, err := outline.Points(shape, ringPoints)
	if err != nil {
		return balloons, nil
	}
	return balloons, []picture.Line{{Kind: picture.Pole, Points: ring}}
}

// clustersOf lists the recipes of a piece and which of them each cluster is made by.
func clustersOf(laid *count.Laid) picture.Clusters {
	list := picture.Clusters{Rests: &rests}
	var names []string
	byKind := make([]int, len(laid.Kinds))
	for i, kind := range laid.Kinds {
		name := kind.Recipe.String()
		byKind[i] = -1
		for at, known := range names {
			if known == name {
				byKind[i] = at
			}
		}
		if byKind[i] < 0 {
			byKind[i] = len(names)
			names = append(names, name)
			list.Recipes = append(list.Recipes, kind.Recipe)
		}
	}
	for _, kind := range laid.Sequence {
		list.Order = append(list.Order, byKind[kind])
	}
	return list
}

// colourIn gives placed balloons the colours that were dealt to their clusters.
func (l *Look) colourIn(laid *count.Laid, balloons []picture.Balloon, layer int, accent bool) {
	colours := make([]int, len(laid.Sorts))
	for i, s := range laid.Sorts {
		colours[i] = l.colour(s.Colour)
	}
	for _, b := range balloons {
		kind := &laid.Kinds[laid.Sequence[b.Cluster]]
		at := b.Slot // where there is no recipe, balloons are numbered as they were dealt
		for _, part := range kind.Recipe[:min(b.Part, len(kind.Recipe))] {
			at += 2 * part.Duplets
		}
		sort := laid.Deals[b.Cluster][at]
		l.Balloons = append(l.Balloons, Balloon{XMM: b.XMM, YMM: b.YMM, DepthMM: b.DepthMM, RadiusMM: b.RadiusMM,
			SizeIn: laid.Sorts[sort].SizeIn, Colour: colours[sort], Layer: layer, Accent: accent, Cluster: b.Cluster})
	}
}

// How thick lines are drawn, mm.
const (
	poleMM   = 25
	ribbonMM = 8
)

func lineOf(line picture.Line) Line {
	drawn := Line{ThickMM: ribbonMM}
	if line.Kind == picture.Pole || line.Kind == picture.Foot {
		drawn.ThickMM = poleMM
	}
	for _, p := range line.Points {
		drawn.Points = append(drawn.Points, p.XMM, p.YMM)
	}
	return drawn
}
