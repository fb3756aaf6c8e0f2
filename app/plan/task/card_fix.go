package task

import (
	"strconv"

	"garlandry/app/job"
	"garlandry/app/plan/count"
)

// fixRule is putting a piece up on site.
var fixRule = rule{family: FamilyFix, place: Site, noun: "piece", title: "Put up ", cards: func(d *draft, r *rule) {
	for _, p := range d.Pieces {
		if p.Fix.Count == 0 {
			continue
		}
		c := r.pieceCard(d, p)
		c.counts(p.Fix)
		d.fixCard(c, p)
		c.After = append(c.After, FamilyUnload.Only(), FamilyLook.Only(), FamilyCarry.Of(p.Piece.ID), FamilyAhead.Of(p.Piece.ID),
			FamilyMake.Of(p.Piece.ID))
		if p.Joined && len(p.Sections) > 0 {
			c.After[len(c.After)-1] = FamilyJoin.Of(p.Piece.ID)
		}
		if trip := d.tripOf(p); trip > 1 {
			c.After = append(c.After, FamilyTrip.Of(strconv.Itoa(trip)))
		}
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

// fixCard fills in how a piece of each make goes up, and how long it takes.
func (d *draft) fixCard(c *Card, p *count.Counted) {
	feet := float64(p.LineMM / 304.8)
	switch {
	case p.Piece.Kind == job.Column:
		c.Steps = []string{
			"Weigh down the foot and stand the pole upright.",
			"Wind each cluster round the pole, turned against the one below, and push it down.",
			"Tie a 260 round pole and balloons at the foot and at the top.",
		}
		if words := d.ColumnWind(p); words != "" {
			c.Steps = append(c.Steps, words)
		}
		c.takes(d.together(Site, "shape-foot", feet))
		d.hands(c, d.pair(), d.pair())
		c.care(lifting)
	case p.LineMM > 0:
		c.Steps = []string{
			"Carry each section in by two. Start with the middle one.",
			"Tie a 260 round several balloons and round the frame or rail, every " + d.Length(
				d.Figures.Get("ties/fix-every"),
			) + " and at both ends. Press some balloons between the bars.",
			"Turn and bend it until it looks right from the door, then hide the ties.",
		}
		if len(p.Sections) < 2 {
			c.Steps[0] = "Carry the base in by two."
		}
		if p.Piece.Kind == job.Hoop && p.Piece.PartPct < 100 {
			where := "on the " + p.Piece.PartAt
			if p.Piece.PartAt == "top" || p.Piece.PartAt == "bottom" {
				where = "at the " + p.Piece.PartAt
			}
			c.Steps[0] += " The middle of the garland goes " + where + " of the hoop, seen from the front."
		}
		c.takes(d.together(Site, "shape-foot", feet))
		d.hands(c, d.pair(), d.most())
		c.care(exits)
	case p.Piece.Kind == job.Numbers:
		c.Steps = []string{
			"Stand the digits where they will be seen and weigh them down.",
			"Press the duplets in from behind, the edge first, then the middle, colours mixed.",
			"Fill gaps with single balloons let down a little.",
		}
		c.takes(d.effort(Site, "fix-cluster", float64(p.Balloons)/4))
		d.hands(c, 1, d.most())
	case p.Piece.Kind == job.Free:
		c.Steps = []string{"Put it up as the brief says.", "Tie to frames and rails, never to balloons. Hide the ties."}
		c.takes(d.effort(Site, "fix-cluster", float64(p.Balloons)/4))
		d.hands(c, 1, d.most())
	default:
		c.Steps = []string{
			"Carry each " + p.Fix.One + " to its place, clear of lamps and candles.",
			"See that each stands or hangs by its own weight.",
		}
		c.takes(d.effort(Site, "set-out", float64(p.Fix.Count)))
		d.hands(c, 1, d.most())
		c.care(choking, exits)
		if p.Helium {
			c.care(release)
		}
	}
	if p.Piece.Notes != "" {
		c.Steps = append(c.Steps, "Note: "+p.Piece.Notes)
	}
}
