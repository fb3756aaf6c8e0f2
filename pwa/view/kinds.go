package view

import (
	"cmp"
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/calc/cluster"
	"garlandry/calc/softsphere"
	"garlandry/calc/stable"
)

// clusterKinds draws the kinds of a piece's clusters, each with its number and its balloons; nothing for a single kind.
func clusterKinds(l *count.Laid) g.Node {
	if len(l.Kinds) < 2 {
		return nil
	}
	half := 0.0
	for _, k := range l.Kinds {
		half = max(half, cluster.BallMM(k.Recipe)/2)
	}
	kinds := make(g.Group, len(l.Kinds))
	for i := range l.Kinds {
		k := &l.Kinds[i]
		kinds[i] = h.Li(kindPicture(k, half),
			RowText(strconv.Itoa(k.Clusters)+" x "+k.Name, Small(k.Words())))
	}
	return Panel("Kinds", "", h.Ul(h.Class("kinds"), kinds))
}

// kindPicture draws a cluster of a kind from the front, in its colours, so large that one of halfMM to every side fills
// the picture; nothing where its balloons are not twisted into a cluster.
func kindPicture(k *count.ClusterKind, halfMM float64) g.Node {
	rest, err := cluster.ArrangeOne(k.Recipe)
	if err != nil {
		return nil
	}
	var colours []job.Colour // of the balloons, by size as the rest lists them
	for _, b := range k.By {
		for range b.Count {
			colours = append(colours, b.Colour)
		}
	}
	if len(colours) != len(rest.Balloons) {
		return nil
	}
	scale := 48 / (halfMM * 1.05)
	shades := make(map[int]string, len(colours))
	for i := range rest.Balloons {
		shades[rest.Balloons[i].Kind] = shadeOf(colours[i])
	}
	stable.Sort(rest.Balloons, func(a, b softsphere.Balloon) int { return cmp.Compare(a.Y, b.Y) })
	return h.SVG(h.Class("kind"), g.Attr("viewBox", "0 0 96 96"), decorative(),
		g.Map(rest.Balloons, func(b softsphere.Balloon) g.Node {
			return g.El("circle", g.Attr("cx", figure(48+float64(b.X*scale), 0)),
				g.Attr("cy", figure(48-float64(b.Z*scale), 0)), g.Attr("r", figure(float64(b.Radius*scale), 0)),
				g.Attr("fill", shades[b.Kind]))
		}))
}
