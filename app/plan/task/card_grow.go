package task

import "garlandry/app/plan/count"

// growRule adds the cards for putting layers on the base.
var growRule = rule{family: FamilyGrow, place: Site, noun: "layer", title: "Put the layer on ", cards: putOn}

// dressRule adds the cards for putting the accents on.
var dressRule = rule{family: FamilyDress, place: Site, noun: "piece", title: "Put the accents on ", cards: putOn}

// putOn adds the cards for putting what sits on pieces there, the lowest first.
func putOn(d *draft, r *rule) {
	for _, p := range d.Pieces {
		after := []Ref{FamilyFix.Of(p.Piece.ID)}
		for _, on := range p.On() {
			if c := r.onCard(d, p, on); c != nil {
				c.After = append(append(c.After, after...), RefTo(on.MakeKey))
				c.takes(d.effort(Site, "fix-cluster", float64(on.Clusters)))
				d.hands(c, 1, d.most())
				if p.HighMM > d.Figures.Get("hands/ladder") {
					c.care(ladder)
				}
				c.Steps = d.putSteps(p, on)
			}
			after = append(after, RefTo(on.FixKey))
		}
	}
}

func (d *draft) putSteps(p *count.Counted, on *count.LayerCount) []string {
	if on.ID == "" {
		first := "Wrap the 260 round two balloons of the base. Use glue dots for the rest."
		if on.Tie == "glue" {
			first = tieTo(on)
		}
		return []string{"Start where gaps show. " + first,
			"Spread them unevenly: more at the corners and the foot, fewer in the middle.",
			"Check from the door after every ten."}
	}
	steps := []string{d.stretchWords(p, on), tieTo(on),
		"Push each cluster into a gap of what is below. Look from the door after every few."}
	if on.Notes != "" {
		steps = append(steps, "Note: "+on.Notes)
	}
	return steps
}

// dressed lists the cards after which a piece is complete.
func dressed(p *count.Counted) []Ref {
	after := []Ref{FamilyFix.Of(p.Piece.ID)}
	for _, on := range p.On() {
		after = append(after, RefTo(on.FixKey))
	}
	return after
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
