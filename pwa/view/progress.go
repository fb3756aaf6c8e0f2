package view

import (
	g "maragu.dev/gomponents"

	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/plan/task"
)

// progressOf draws a piece as far as it is, with at most so many balloons. Words says how far it is to screen readers;
// without, words stand beside it.
func progressOf(p plan.Plan, pc count.PieceCount, most int, words, person bool) g.Node {
	making, _ := FindCard(p, pc.MakeKey)
	ahead, _ := FindCard(p, pc.AheadKey)
	fixing, _ := FindCard(p, pc.FixKey)
	made, total, unit := pieceMade(pc, making, ahead)
	v := Front{Look: p.Look(&pc, most), Small: most == inThumbnail, Person: person,
		Progress: true, Made: made, Up: fixing.Done}
	said := ""
	for _, on := range pc.On() {
		making, _ := FindCard(p, on.MakeKey)
		putting, _ := FindCard(p, on.FixKey)
		v.On = append(v.On, OnFront{doneOf(making), doneOf(putting)})
		said += ", " + on.Name + " " + number(doneOf(making)) + " of " + number(on.Clusters)
	}
	if words {
		v.Label = pc.Piece.Name + ", " + number(made) + " of " + number(total) + " " + unit + said
	}
	return v.Draw()
}

// doneOf returns how many of what a card counts are done, all of them if it is ticked.
func doneOf(c task.Card) int {
	if c.Done {
		return c.Count
	}
	return c.Made
}
