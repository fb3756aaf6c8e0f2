package task

import (
	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
)

// layerRule adds the cards for making layers: clusters that shape a piece.
var layerRule = rule{family: FamilyLayer, place: Home, noun: "layer", title: "Make the layer for ", cards: makeOn}

// accentRule adds the cards for making the accents: small clusters on top of all.
var accentRule = rule{family: FamilyAccents, place: Home, noun: "piece", title: "Make the accents for ", cards: makeOn}

// onCard adds a card about what sits on a piece, if the rule is about that.
func (r *rule) onCard(d *draft, p *count.Counted, on *count.LayerCount) *Card {
	id, subject := on.ID, p.Piece.Name+": "+on.Name
	things := count.Batch{Count: on.Clusters, One: "cluster", Many: "clusters"}
	if id == "" {
		id, subject, things.One, things.Many = p.Piece.ID, p.Piece.Name, "accent", "accents"
	}
	if (r.noun == "piece") != (on.ID == "") {
		return nil
	}
	c := r.card(d, id, subject)
	c.Piece, c.Priority = p.Piece.ID, p.Piece.Priority
	c.counts(things)
	return c
}

// makeOn adds the cards for making what sits on pieces.
func makeOn(d *draft, r *rule) {
	for _, p := range d.Pieces {
		for _, on := range p.On() {
			c := r.onCard(d, p, on)
			if c == nil {
				continue
			}
			small, bag := "small ", "Bag them separately: small balloons burst under big ones."
			if on.ID != "" {
				small, bag = "", "Bag them apart from the base. Label each bag with the piece and the layer."
			}
			c.Steps = []string{"Fill " + d.recipeWords(on.Recipe) + ", tie them in pairs and twist the pairs into a " + small +
				"cluster.", tieOn(on)}
			if on.ID != "" {
				c.Steps = append(c.Steps, d.colourSteps(p, on.ID, &on.Laid)...)
			}
			c.Steps = append(c.Steps, bag)
			if on.OnSite {
				c.Place = Site
			}
			total := d.effort(c.Place, "twist", float64(on.Clusters))
			for _, part := range on.Parts {
				total = total.plus(d.effort(c.Place, figures.DupletKey(part.SizeIn), float64(part.Duplets)))
			}
			c.takes(total)
			d.hands(c, 1, d.most())
			c.After = ready(c.Place)
			c.care(choking, eyes)
		}
	}
}

// tieOn says what to tie onto the clusters while they are made.
func tieOn(on *count.LayerCount) string {
	switch on.Tie {
	case "each":
		return "Tie a whole 260 onto each cluster."
	case "half":
		return "Cut 260s in half. Tie one half onto each cluster."
	case "glue":
		return "Tie nothing onto them: glue dots will hold them."
	}
	if on.ID == "" {
		return "Tie on a 260: one between two clusters, or half of one for a single cluster."
	}
	return "Tie a cluster to each end of a 260."
}
