package task

import (
	"garlandry/app/plan/count"
)

// fixRule adds the cards for putting a piece up on site.
var fixRule = rule{family: FamilyFix, place: Site, noun: "piece", title: "Put up ", cards: func(d *draft, r *rule) {
	for _, p := range d.Pieces {
		if p.Fix.Count == 0 {
			continue
		}
		c := r.pieceCard(d, p)
		c.counts(p.Fix)
		d.fixCard(c, p)
		c.After = append(c.After, FamilyUnload.Only(), FamilyLook.Only(), FamilyCarry.Of(p.Piece.ID),
			FamilyAhead.Of(p.Piece.ID),
			FamilyMake.Of(p.Piece.ID))
		if p.Joined && len(p.Sections) > 0 {
			c.After[len(c.After)-1] = FamilyJoin.Of(p.Piece.ID)
		}
		c.After = append(c.After, d.arrivals(p)...)
		if p.Piece.Frame != "" {
			c.After = append(append(c.After, FamilyFrame.Of(p.Piece.Frame)), d.coverCards(p.Piece.Frame)...)
		}
		if p.HighMM > d.Figures.Get("hands/ladder") {
			c.care(ladder)
		}
		if d.Outdoors() {
			c.care(wind)
		}
	}
}}

// fixCard fills in how a piece goes up, and how long it takes.
func (d *draft) fixCard(c *Card, p *count.Counted) {
	up := p.Kind.PutUp(d.Draft, p)
	if up.First != "" && d.ownStand(p) {
		c.Steps = append(c.Steps, up.First)
	}
	if p.Kind.Stand != "" {
		c.Steps = append(c.Steps, d.StandSteps("", p.Piece.ID)...)
		if d.Staked("", p.Piece.ID) {
			c.care(stakes)
		}
	}
	c.Steps = append(c.Steps, up.Steps...)
	if up.Together {
		c.takes(d.together(Site, up.Row, up.Times))
	} else {
		c.takes(d.effort(Site, up.Row, up.Times))
	}
	d.hands(c, d.handsFor(up.Least), d.handsFor(up.Most))
	for _, key := range up.Cautions {
		c.care(cautionOf(key))
	}
	if p.Piece.Notes != "" {
		c.Steps = append(c.Steps, "Note: "+p.Piece.Notes)
	}
}

// ownStand reports whether the cards of a piece put up and take down what carries it: nothing of the kit does, which
// has cards of its own.
func (d *draft) ownStand(p *count.Counted) bool {
	_, known := d.Job.KitItem(p.Piece.Frame)
	return p.Balloons > 0 && !known
}

func (d *draft) handsFor(hands count.HandsFor) int {
	if hands == count.OneHand {
		return 1
	}
	return int(d.Figures.Get(string(hands)))
}
