package count

import (
	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/calc/cluster"
	"garlandry/calc/measure"
)

// mostAccents is what a piece may have, as when they are typed.
const mostAccents = 2000

// scattered is the source of what accents hide, see [cluster.Accents].
var scattered = figures.Source{Text: "what is seen from the front in the model of the base; discs scattered at random",
	Mark: figures.FromMemory}

// accents adds the small clusters on top: as many as were typed, else, on a garland or hoop, as many as
// hide what was wished, else one for every two feet.
func (d *Draft) accents(c *Counted) {
	p := c.Piece
	n, how, source := p.Accents, "typed", figures.Source{Text: "your own count", Mark: figures.Measured}
	if n < 0 {
		n = 0
		if c.Joined && c.Kind.AccentsBySpacing {
			every := d.Figures.Row("accents/spacing")
			n, how, source = figures.RoundUp(c.LengthMM/every.Value), "one for every "+d.Length(every.Value), every.Source
			if wished := p.AccentCoverPct; wished > 0 {
				n = min(cluster.Accents(c.LengthMM, c.Recipe, p.AccentRecipe, d.Push, wished/100).Accents, mostAccents)
				how, source = "until "+measure.FormatPercent(wished)+" of what is behind is hidden", scattered
			}
		}
	}
	if n == 0 || p.AccentRecipe.Duplets() == 0 {
		return
	}
	shares := p.AccentShares
	if len(shares) == 0 {
		shares = d.ableFor(p.AccentRecipe, p.Colours)
	}
	before := c.Balloons
	c.Accent = p.AccentRecipe
	c.Accents = n
	d.fill(c, d.blend(c, p.AccentRecipe, shares, true), n, true)
	c.AccentBalloons = c.Balloons - before
	tie := d.Figures.Row("ties/accent")
	ties := figures.RoundUp(float64(float64(n) * tie.Value))
	c.Ties += ties
	if c.Joined && !c.Kind.Covers {
		cover := cluster.AccentsCover(c.LengthMM, c.Recipe, p.AccentRecipe, d.Push, n)
		c.line("Hidden of what is behind",
			measure.FormatPercent(100*cover.Before)+" by the base, the rest by accents scattered over it",
			measure.FormatPercent(100*cover.After), scattered)
	}
	c.line("Accents", how, phrase.Count(n, "cluster")+" of "+cluster.Recipe(p.AccentRecipe).String(), source)
	c.line("Ties for accents", phrase.Count(n, "accent")+" x "+phrase.Number(tie.Value), phrase.Count(ties, "tie"),
		tie.Source)
}

// ableFor is the shares of the colours that can be had in every size of the recipe; all of them if none can.
func (d *Draft) ableFor(recipe cluster.Recipe, shares []job.Share) []job.Share {
	var able []job.Share
	for _, s := range shares {
		colour, known := d.Job.Colour(s.Colour)
		for _, part := range recipe {
			known = known && colour.Has(part.SizeIn)
		}
		if known {
			able = append(able, s)
		}
	}
	if len(able) == 0 {
		return shares
	}
	return able
}
