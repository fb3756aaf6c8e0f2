package task

import "garlandry/app/plan/count"

// downRule adds the cards for taking a piece down.
var downRule = rule{
	family: FamilyDown,
	place:  TakeDown,
	noun:   "piece",
	title:  "Take down ",
	cards: func(d *draft, r *rule) {
		for _, p := range d.Pieces {
			if p.Balloons == 0 {
				continue
			}
			c := r.pieceCard(d, p)
			c.Steps = downSteps(p)
			if last := p.Kind.PutUp(d.Draft, p).Last; last != "" && d.ownStand(p) {
				c.Steps = append(c.Steps, last)
			}
			if p.LineMM > 0 {
				c.takes(d.effort(TakeDown, "down-10ft", p.LineMM/3048))
			} else {
				c.takes(d.effort(TakeDown, "down-80", float64(p.Balloons)/80))
			}
			d.hands(c, 1, d.most())
			c.After = []Ref{FamilyFix.Of(p.Piece.ID)}
			c.care(choking, eyes)
			if p.Helium {
				c.care(release)
			}
			if p.HighMM > d.Figures.Get("hands/ladder") {
				c.care(ladder)
			}
		}
	},
}

// downSteps says how a piece comes down. Only a base hangs, and is lowered.
func downSteps(p *count.Counted) []string {
	if p.Helium {
		return []string{
			"Hold each bunch by its weight. Cut one neck at a time and let the gas out. Never let a balloon go.",
			"Bin the balloons, keep the weights."}
	}
	var steps []string
	if p.Joined {
		steps = append(steps, "Cut the ties and lower it, two of you where it is high. Nobody stands underneath.")
	}
	return append(steps,
		"Glasses on. Snip each balloon close to the knot, where the rubber is slack: it goes down without a bang. "+
			"Put it straight into a bin bag.",
		"Check the floor: leave no piece of balloon behind.")
}
