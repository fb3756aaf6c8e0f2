package task

import (
	"strconv"

	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/calc/cluster"
)

// makeRule adds the cards with a tally: they make a piece's clusters, bouquets or duplets.
var makeRule = rule{
	family: FamilyMake,
	place:  Home,
	noun:   "piece",
	title:  "Make: ",
	cards: func(d *draft, r *rule) {
		for _, p := range d.Pieces {
			if p.Ahead == p.Make.Count {
				continue
			}
			c := r.pieceCard(d, p)
			c.Place = place(p)
			c.counts(count.Batch{Count: p.Make.Count - p.Ahead, One: p.Make.One, Many: p.Make.Many})
			c.Title = makeTitle(p)
			d.makes(c, p, c.Count)
		}
	},
}

// ready returns the cards that come before filling balloons at a place.
func ready(where Place) []Ref {
	if where == Home {
		return []Ref{FamilyShop.Only()}
	}
	return []Ref{FamilyUnload.Only(), FamilyLook.Only()}
}

// place returns where a piece is made.
func place(p *count.Counted) Place {
	if p.OnSite {
		return Site
	}
	return Home
}

func makeTitle(p *count.Counted) string {
	if p.Make.One == "balloon" {
		return "Fill and tie the balloons for " + p.Piece.Name
	}
	return "Make the " + p.Make.Many + " for " + p.Piece.Name
}

// makeEffort returns the time to make a share of the piece: its duplets and twists, or its balloons of helium.
func (d *draft) makeEffort(p *count.Counted, where Place, share float64) effort {
	if p.Helium {
		return d.effort(where, "helium", float64(p.BaseBalloons()))
	}
	total := effort{}
	for _, part := range p.Parts {
		total = total.plus(d.effort(where, figures.DupletKey(part.SizeIn), float64(share*float64(part.Duplets))))
	}
	if twists := p.Twists(); twists > 0 {
		total = total.plus(d.effort(where, "twist", float64(share*float64(twists))))
	}
	return total
}

func (d *draft) makeSteps(p *count.Counted) []string {
	var steps []string
	switch {
	case p.Helium:
		if gel := d.GelIn(p); gel > 0 {
			steps = append(steps, "First put "+phrase.Number(d.Figures.Get("supply/gel-ml"))+
				" ml of drying gel into each of "+phrase.Count(gel, "balloon")+" and rub it round inside.")
		}
		steps = append(steps,
			"Open a door. Fill with helium: "+d.fillWords(p.Base)+". Check each one in the sizing box, then tie it.",
			"Tie a ribbon to each neck and gather "+d.eachOf(p)+" on one weight.")
	case p.Clusters > 0:
		steps = append(steps,
			"Fill "+d.recipeWords(p.Recipe)+". Check each one in the sizing box: equal matters more than exact.",
			"Tie them neck to neck in pairs: these are duplets.",
			"Twist "+phrase.Count(p.Recipe.Duplets(), "duplet")+
				" together, twice round at the necks, so that they do not slip. That is one cluster.")
	default:
		steps = append(steps, "Fill "+d.fillWords(p.Base)+". Check each one in the sizing box.",
			"Tie them neck to neck in pairs: these are duplets.")
		if p.Make.One != "duplet" && p.Make.One != "balloon" {
			steps = append(steps, "Twist "+d.eachOf(p)+" into one "+p.Make.One+" and tie it with a 260.")
		}
	}
	laid := &p.Laid
	if p.Clusters == 0 || len(p.Base) == 0 {
		laid = &count.Laid{}
	} else if len(laid.Kinds) == 0 {
		steps = append(steps, "Colours: "+colourWords(p.Base)+".")
	}
	steps = append(steps, d.colourSteps(p, "", laid)...)
	return append(steps, "Count each "+p.Make.One+" here as you finish it. Bin burst pieces at once.")
}

// colourSteps says how to mix the colours of a base or a layer, and which of its clusters are built by another recipe.
func (d *draft) colourSteps(p *count.Counted, layer string, laid *count.Laid) []string {
	var steps []string
	for _, s := range p.Substitutes {
		if !s.Accent && s.Layer == layer && s.Clusters > 0 {
			steps = append(steps,
				phrase.Count(s.Clusters, "cluster")+" all in "+s.Colour.Name+": "+d.recipeWords(s.Recipe)+" each.")
		}
	}
	switch kinds := laid.Kinds; {
	case len(kinds) > 1:
		return append(steps, "Make each kind as often as it says. "+laid.Listed()+".")
	case len(kinds) == 1:
		return append(steps, "Colours of each cluster: "+kinds[0].Words()+".")
	}
	return steps
}

// colourWords lists balloons by size: "11-inch: 40 Coral, 26 Sand; 18-inch: 20 Coral".
func colourWords(list []count.PieceBalloons) string {
	words, size := "", 0
	for _, b := range list {
		switch {
		case size == 0:
			words += phrase.Inch(b.SizeIn) + ": "
		case size != b.SizeIn:
			words += "; " + phrase.Inch(b.SizeIn) + ": "
		default:
			words += ", "
		}
		size = b.SizeIn
		words += strconv.Itoa(b.Count) + " " + b.Colour.Name
	}
	return words
}

// fillWords lists balloons and the size to fill them to: "12 Blush 11-inch to 10 in, 5 Coral 18-inch to 16 in".
func (d *draft) fillWords(list []count.PieceBalloons) string {
	words := ""
	for i, b := range list {
		if i > 0 {
			words += ", "
		}
		words += strconv.Itoa(b.Count) + " " + b.Colour.Name + " " + phrase.Inch(b.SizeIn) + " to " + d.Small(b.ToIn)
	}
	return words
}

// recipeWords writes a recipe in balloons: "4 of 11-inch to 10 in and 2 of 18-inch to 16 in".
func (d *draft) recipeWords(r cluster.Recipe) string {
	var parts []string
	for _, part := range r {
		parts = append(parts, strconv.Itoa(2*part.Duplets)+" of "+phrase.Inch(part.SizeIn)+" to "+d.Small(part.ToIn))
	}
	return phrase.And(parts)
}

// eachOf says how many balloons go into one bouquet or whatever the card makes.
func (d *draft) eachOf(p *count.Counted) string {
	if p.Make.Count == 0 {
		return phrase.Count(0, "balloon")
	}
	return phrase.Count(p.BaseBalloons()/p.Make.Count, "balloon")
}
