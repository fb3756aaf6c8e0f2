package task

import (
	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
)

// layerRule adds the cards for making layers: clusters that shape a piece.
var layerRule = rule{
	family: FamilyLayer,
	place:  Home,
	noun:   "layer",
	title:  "Make the layer for ",
	cards: func(d *draft, r *rule) {
		for _, p := range d.Pieces {
			for i := range p.Layers {
				on := &p.Layers[i]
				c := r.layerCard(d, p, on)
				c.Steps = append([]string{
					"Fill " + d.recipeWords(on.Recipe) + ". Check each one in the sizing box. Tie them in pairs and twist " +
						phrase.Count(on.Recipe.Duplets(), "duplet") + " into one cluster.",
					tieOn(on),
				}, layerColours(d, p, on)...)
				c.Steps = append(c.Steps, "Bag them apart from the base. Label each bag with the piece and the layer.")
				d.makesOn(c, on)
			}
		}
	},
}

// accentRule adds the cards for making the accents: small clusters on top of all.
var accentRule = rule{
	family: FamilyAccents,
	place:  Home,
	noun:   "piece",
	title:  "Make the accents for ",
	cards: func(d *draft, r *rule) {
		for _, p := range d.Pieces {
			if p.Accents == 0 {
				continue
			}
			c := r.pieceCard(d, p)
			c.counts(count.Batch{Count: p.Accents, One: "accent", Many: "accents"})
			c.Steps = []string{
				"Fill " + d.recipeWords(p.Accent.Recipe) + ", tie them in pairs and twist the pairs into a small cluster.",
				tieOn(&p.Accent),
				"Bag them separately: small balloons burst under big ones.",
			}
			d.makesOn(c, &p.Accent)
		}
	},
}

// layerCard adds a card about a layer of a piece.
func (r *rule) layerCard(d *draft, p *count.Counted, on *count.LayerCount) *Card {
	c := r.card(d, on.ID, p.Piece.Name+": "+on.Name)
	c.Piece, c.Priority = p.Piece.ID, p.Piece.Priority
	c.counts(count.Batch{Count: on.Clusters, One: "cluster", Many: "clusters"})
	return c
}

// makesOn fills in where what sits on a base is made, and how long it takes.
func (d *draft) makesOn(c *Card, on *count.LayerCount) {
	c.Place = Home
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

// layerColours says how to mix the colours of a layer and which of its clusters are built by another recipe.
func layerColours(d *draft, p *count.Counted, on *count.LayerCount) (steps []string) {
	for _, s := range p.Substitutes {
		if s.Layer == on.ID && s.Clusters > 0 {
			steps = append(steps,
				phrase.Count(s.Clusters, "cluster")+" all in "+s.Colour.Name+": "+d.recipeWords(s.Recipe)+" each.")
		}
	}
	switch kinds := on.Laid.Kinds; {
	case len(kinds) > 1:
		steps = append(steps, "Make each kind as often as it says. "+on.Laid.Listed()+".")
	case len(kinds) == 1:
		steps = append(steps, "Colours of each cluster: "+kinds[0].Words()+".")
	}
	return steps
}
