package view

import (
	g "maragu.dev/gomponents"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
)

// progressOf draws a piece as far as it is, with at most so many balloons. Words says how far it is to screen readers;
// without, words stand beside it.
func progressOf(p plan.Plan, pc count.PieceCount, most int, words, person bool) g.Node {
	making, _ := FindCard(p, pc.MakeKey)
	ahead, _ := FindCard(p, pc.AheadKey)
	fixing, _ := FindCard(p, pc.FixKey)
	accents, _ := FindCard(p, accentsKey(pc))
	made, total, unit := pieceMade(pc, making, ahead)
	v := Front{Look: p.Look(&pc, most), Small: most == inThumbnail, Person: person,
		Progress: true, Made: made, Accents: accents.Made, Up: fixing.Done}
	if words {
		v.Label = pc.Piece.Name + ", " + number(made) + " of " + number(total) + " " + unit
	}
	return v.Draw()
}

// accentsKey is the key of the card that makes a piece's accents.
func accentsKey(pc count.PieceCount) string { return job.CardKey("accents", pc.Piece.ID) }
