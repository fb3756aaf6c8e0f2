package plan

import (
	"strconv"

	"garlandry/calc/cluster"
)

// makeRule is making a piece's clusters, bouquets or duplets: the card with the tally.
var makeRule = cardRule{
	family: "make",
	place:  Home,
	noun:   "piece",
	title:  "Make: ",
	cards: func(d *cardDraft, r *cardRule) {
		for _, p := range d.pieces {
			if p.ahead == p.make.count {
				continue
			}
			c := r.pieceCard(d, p)
			c.Place = p.where
			c.counts(batch{p.make.count - p.ahead, p.make.one, p.make.many})
			c.Title = makeTitle(p)
			d.makes(c, p, c.Count)
		}
	},
}

// ready is what must be done before anything is filled at a place.
func ready(where Place) []string {
	if where == Home {
		return []string{"card/shop"}
	}
	return []string{"card/unload", "card/look"}
}

func makeTitle(p *counted) string {
	if p.make.one == "balloon" {
		return "Fill and tie the balloons for " + p.Piece.Name
	}
	return "Make the " + p.make.many + " for " + p.Piece.Name
}

// makeEffort is duplets, twisting, and single balloons with helium, of a share of the piece.
func (d *cardDraft) makeEffort(p *counted, where Place, share float64) effort {
	if p.helium {
		return d.effort(where, "helium", float64(p.Balloons-p.AccentBalloons))
	}
	total := effort{}
	for _, part := range p.parts {
		total = total.plus(d.effort(where, dupletKey(part.sizeIn), float64(share*float64(part.duplets))))
	}
	return total.plus(d.effort(where, "twist", float64(share*float64(p.Clusters))))
}

func (d *cardDraft) makeSteps(p *counted) []string {
	var steps []string
	switch {
	case p.helium:
		steps = append(steps,
			"Open a door. Fill with helium: "+d.fillWords(p.base)+". Size every one against the box and tie it.",
			"Tie a ribbon to each neck and gather "+d.eachOf(p)+" on one weight.")
	case p.Clusters > 0:
		steps = append(
			steps,
			"Fill "+d.recipeWords(p.Recipe)+". Size every one against the box: equal matters more than exact.",
			"Tie them neck to neck in twos: these are duplets.",
			"Twist "+count(
				p.Recipe.Duplets(),
				"duplet",
			)+" round each other at the necks, twice, so that they do not slip. That is one cluster.",
		)
	default:
		steps = append(steps, "Fill "+d.fillWords(p.base)+". Size every one against the box.",
			"Tie them neck to neck in twos: these are duplets.")
		if p.make.one != "duplet" && p.make.one != "balloon" {
			steps = append(steps, "Twist "+d.eachOf(p)+" together for one "+p.make.one+" and hold them with a 260.")
		}
	}
	steps = append(steps, d.colourSteps(p)...)
	return append(steps, "Count each "+p.make.one+" here as it is done. Bin burst pieces at once.")
}

// colourSteps says how the colours are used, and which clusters are built another way.
func (d *cardDraft) colourSteps(p *counted) []string {
	var steps []string
	stand := 0
	for _, s := range p.StandIns {
		if !s.Accent && s.Clusters > 0 {
			stand += s.Clusters
			steps = append(steps,
				count(s.Clusters, "cluster")+" all in "+s.Colour.Name+" instead: "+d.recipeWords(s.Recipe)+" each.")
		}
	}
	if p.Clusters == 0 || len(p.base) == 0 {
		return steps
	}
	words := "Colours: "
	if stand > 0 {
		words = "Colours of the other " + strconv.Itoa(p.Clusters-stand) + ": "
	}
	steps = append(steps, words+colourWords(p.base)+".")
	if made := makeups(p.mixed); made != "" {
		steps = append(steps, "Make them up so, and let the kinds take turns along the base: "+made+".")
	}
	return steps
}

// colourWords lists balloons by size: "11-inch: 40 Coral, 26 Sand; 18-inch: 20 Coral".
func colourWords(list []PieceBalloons) string {
	words, size := "", 0
	for _, b := range list {
		switch {
		case size == 0:
			words += inch(b.SizeIn) + ": "
		case size != b.SizeIn:
			words += "; " + inch(b.SizeIn) + ": "
		default:
			words += ", "
		}
		size = b.SizeIn
		words += strconv.Itoa(b.Count) + " " + b.Colour.Name
	}
	return words
}

// fillWords lists balloons with what they are sized to: "12 Blush 11-inch to 10 in, 5 Coral 18-inch to 16 in".
func (d *cardDraft) fillWords(list []PieceBalloons) string {
	words := ""
	for i, b := range list {
		if i > 0 {
			words += ", "
		}
		words += strconv.Itoa(b.Count) + " " + b.Colour.Name + " " + inch(b.SizeIn) + " to " + d.small(b.ToIn)
	}
	return words
}

// recipeWords says a recipe in balloons: "4 of 11-inch to 10 in and 2 of 18-inch to 16 in".
func (d *cardDraft) recipeWords(r cluster.Recipe) string {
	words := ""
	for i, part := range r {
		if i > 0 {
			words += " and "
		}
		words += strconv.Itoa(2*part.Duplets) + " of " + inch(part.SizeIn) + " to " + d.small(part.ToIn)
	}
	return words
}

// eachOf says how many balloons are in one of what is made.
func (d *cardDraft) eachOf(p *counted) string {
	if p.make.count == 0 {
		return count(0, "balloon")
	}
	return count((p.Balloons-p.AccentBalloons)/p.make.count, "balloon")
}
