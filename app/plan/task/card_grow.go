package task

import "garlandry/app/plan/count"

// growRule adds the cards for putting layers on the base.
var growRule = rule{
	family: FamilyGrow,
	place:  Site,
	noun:   "layer",
	title:  "Put the layer on ",
	cards: func(d *draft, r *rule) {
		for _, p := range d.Pieces {
			for i := range p.Layers {
				on := &p.Layers[i]
				c := r.layerCard(d, p, on)
				c.Steps = []string{
					d.stretchWords(p, on), tieTo(on),
					"Push each cluster into a gap of what is below. Look from the door after every few.",
				}
				if on.Notes != "" {
					c.Steps = append(c.Steps, "Note: "+on.Notes)
				}
				d.putsOn(c, p, on)
				c.After = append(c.After, FamilyLayer.Of(on.ID))
				if i > 0 {
					c.After = append(c.After, FamilyGrow.Of(p.Layers[i-1].ID))
				}
			}
		}
	},
}

// dressRule adds the cards for putting the accents on.
var dressRule = rule{
	family: FamilyDress,
	place:  Site,
	noun:   "piece",
	title:  "Put the accents on ",
	cards: func(d *draft, r *rule) {
		for _, p := range d.Pieces {
			if p.Accents == 0 {
				continue
			}
			c := r.pieceCard(d, p)
			c.counts(count.Batch{Count: p.Accents, One: "accent", Many: "accents"})
			first := "Start where gaps show. Wrap the 260 round two balloons of the base. Use glue dots for the rest."
			if p.Accent.Tie == "glue" {
				first = "Start where gaps show. " + tieTo(&p.Accent)
			}
			c.Steps = []string{first,
				"Spread them unevenly: more at the corners and the foot, fewer in the middle.",
				"Check from the door after every ten.",
			}
			d.putsOn(c, p, &p.Accent)
			c.After = append(c.After, FamilyAccents.Of(p.Piece.ID))
			for i := range p.Layers {
				c.After = append(c.After, FamilyGrow.Of(p.Layers[i].ID))
			}
		}
	},
}

// putsOn fills in how long it takes to put a layer on its base, and that the base comes first.
func (d *draft) putsOn(c *Card, p *count.Counted, on *count.LayerCount) {
	c.takes(d.effort(Site, "fix-cluster", float64(on.Clusters)))
	d.hands(c, 1, d.most())
	c.After = []Ref{FamilyFix.Of(p.Piece.ID)}
	if p.HighMM > d.Figures.Get("hands/ladder") {
		c.care(ladder)
	}
}

// dressed lists the cards after which a piece is complete.
func dressed(p *count.Counted) []Ref {
	after := []Ref{FamilyFix.Of(p.Piece.ID)}
	for i := range p.Layers {
		after = append(after, FamilyGrow.Of(p.Layers[i].ID))
	}
	return append(after, FamilyDress.Of(p.Piece.ID))
}

// tieTo says how a cluster is tied to the base.
func tieTo(on *count.LayerCount) string {
	switch on.Tie {
	case "pair":
		return "Wrap the 260 round two or three balloons of the base, with one of its clusters on either side."
	case "half":
		return "Wrap the half 260 round a balloon of the base, close to its neck, and tie it."
	case "glue":
		return "Stick each cluster on with glue dots where it touches two balloons, and press."
	}
	return "Wrap the 260 round two or three balloons of the base, then round the cluster's knot, and tie it."
}

// stretchWords says where a layer goes.
func (d *draft) stretchWords(p *count.Counted, on *count.LayerCount) string {
	where := "Spread them over the whole length"
	if on.FromPct > 0 || on.ToPct < 100 {
		long := p.LengthMM / float64(max(1, p.Laid.Strands)) / 100
		where = "Spread them from " + d.Length(float64(long*on.FromPct)) + " to " + d.Length(float64(long*on.ToPct)) +
			", measured from the "
		switch {
		case p.Form != count.Strung:
			where += "foot"
		case p.Kind.NoTopBar:
			where += "start"
		default:
			where += "left end"
		}
	}
	switch on.Side {
	case "outer":
		return where + ", on the outer side."
	case "inner":
		return where + ", on the inner side."
	}
	return where + ", all round."
}
