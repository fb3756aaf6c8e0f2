package view

import (
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/app/plan/look"
	"garlandry/calc/cluster"
	"garlandry/calc/picture"
)

// clusterKinds draws the kinds of a piece's clusters, each with its number and its balloons; nothing for a single kind.
// Each, if not nil, draws what stands beside a kind, with its own words for the number.
func clusterKinds(l *count.Laid, each func(i int) (number string, beside g.Node), below ...g.Node) g.Node {
	if len(l.Kinds) < 2 {
		return nil
	}
	half := widestKind(l.Kinds)
	kinds := make(g.Group, len(l.Kinds))
	for i := range l.Kinds {
		k := &l.Kinds[i]
		says, beside := timesMade(k), g.Node(nil)
		if each != nil {
			says, beside = each(i)
		}
		kinds[i] = kindRow(k, half, nil, says, beside)
	}
	return Panel("Kinds", "", h.Ul(h.Class("kinds"), g.If(each != nil, g.Attr("data-tally")), kinds), g.Group(below))
}

// widestKind returns half the diameter of the largest cluster.
func widestKind(kinds []count.ClusterKind) (halfMM float64) {
	for i := range kinds {
		halfMM = max(halfMM, cluster.BallMM(kinds[i].Recipe)/2)
	}
	return halfMM
}

// timesMade says how often a kind is made: "9 x A".
func timesMade(k *count.ClusterKind) string { return strconv.Itoa(k.Clusters) + " x " + k.Name }

// kindRow draws a kind of cluster with a title, what is in it, and what stands beside it.
func kindRow(k *count.ClusterKind, halfMM float64, n numbering, title string, beside ...g.Node) g.Node {
	return h.Li(kindPicture(k, halfMM, n), RowText(title, Small(k.Words())), g.Group(beside))
}

// kindPicture draws a cluster of a kind from the front, in its colours, so large that one of halfMM to every side fills
// the picture; nothing where its balloons are not twisted into a cluster. With numbers it is for paper.
func kindPicture(k *count.ClusterKind, halfMM float64, n numbering) g.Node {
	var colours []job.Colour // of the balloons, by size as look.Free lists them
	for _, b := range k.By {
		for range b.Count {
			colours = append(colours, b.Colour)
		}
	}
	balloons := look.Free(k.Recipe)
	if len(colours) != len(balloons) {
		return nil
	}
	class := "kind"
	if n != nil {
		class += " numbered"
	}
	return oneCluster(class, balloons, halfMM, decorative(), n, func(i int) job.Colour { return colours[i] })
}

// oneCluster draws the balloons of a free cluster, each in its colour, so large that one of halfMM to every side fills
// the picture. What says names it to screen readers or hides it from them.
func oneCluster(class string, balloons []picture.Balloon, halfMM float64, says g.Node, n numbering,
	colourOf func(int) job.Colour) g.Node {
	scale := 48 / (halfMM * 1.05)
	return h.SVG(h.Class(class), g.Attr("viewBox", "0 0 96 96"), says,
		g.Map(picture.BackToFront(balloons), func(i int) g.Node {
			b := &balloons[i]
			x, y := figure(48+float64(b.XMM*scale), 1), figure(48-float64(b.YMM*scale), 1)
			if n != nil {
				return numbered(x, y, b.RadiusMM*scale, n.of(colourOf(i)))
			}
			return disc(x, y, figure(float64(b.RadiusMM*scale), 1), paint(colourOf(i)))
		}))
}
