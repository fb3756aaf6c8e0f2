package view

import (
	g "maragu.dev/gomponents"

	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/plan/task"
)

// progressOf draws a piece as far as it is, with at most that many balloons. Words says how far it is to screen
// readers; without, words stand beside it.
func progressOf(p plan.Plan, pc count.PieceCount, most int, words, person bool) g.Node {
	v := frontOfProgress(p, pc, most, words)
	v.Person = person
	return v.Draw()
}

// frontOfProgress is the picture of a piece as far as it is, with a label if words are wanted: "Door garland, 6 of 26
// clusters; kinds: 26 x A: 4 Coral 11-inch".
func frontOfProgress(p plan.Plan, pc count.PieceCount, most int, words bool) Front {
	making, _ := FindCard(p, pc.MakeKey)
	ahead, _ := FindCard(p, pc.AheadKey)
	fixing, _ := FindCard(p, pc.FixKey)
	base := LayerDone{Made: p.Made(&pc, 0).Filled}
	switch {
	case fixing.Done:
		base.Up = len(base.Made)
	case fixing.Count == len(pc.Sections):
		for _, s := range pc.Sections[:max(0, min(fixing.Made, len(pc.Sections)))] {
			base.Up += s.Clusters
		}
	}
	v := Front{Look: p.Look(&pc, most), Small: most == inThumbnail, Progress: true, Layers: []LayerDone{base}}
	made, total, unit := pieceMade(pc, making, ahead)
	said := pc.Piece.Name + ", " + number(made) + " of " + number(total) + " " + unit
	for i, on := range pc.On() {
		making, _ := FindCard(p, on.MakeKey)
		putting, _ := FindCard(p, on.FixKey)
		v.Layers = append(v.Layers, LayerDone{p.Made(&pc, i+1).Filled, doneOf(putting)})
		said += ", " + on.Name + " " + number(doneOf(making)) + " of " + number(on.Clusters)
	}
	if words {
		v.Label = said + kindsSaid(&pc.Laid)
	}
	return v
}

// kindsSaid says which kinds of cluster a picture shows, for screen readers; of many only how many.
func kindsSaid(l *count.Laid) string {
	switch n := len(l.Kinds); {
	case n > 6:
		return "; " + Many(n, "kind")
	case n > 0:
		return "; kinds: " + l.Listed()
	}
	return ""
}

// doneOf returns how many of what a card counts are done, all of them if it is ticked.
func doneOf(c task.Card) int {
	if c.Done {
		return c.Count
	}
	return c.Made
}
