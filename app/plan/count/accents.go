package count

import (
	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/calc/cluster"
	"garlandry/calc/measure"
	"garlandry/calc/pattern"
)

// mostAccents is the most accents a piece may have, the same as the form's limit.
const mostAccents = 2000

// scattered is the source of what accents hide, see [cluster.Accents].
var scattered = figures.Source{Text: "what is seen from the front in the model of the base; discs scattered at random",
	Mark: figures.FromMemory}

// accents adds the small clusters on top: the typed number, else, on a garland or hoop, as many as hide the wanted
// share of the background, else one for every two feet.
func (d *Draft) accents(c *Counted) {
	p := c.Piece
	n, how, source := p.Accents, "typed", figures.Source{Text: "your own count", Mark: figures.Measured}
	if n < 0 {
		n = 0
		if c.Joined && c.Kind.AccentsBySpacing {
			every := d.Figures.Row("accents/spacing")
			n, how, source = figures.RoundUp(c.LengthMM/every.Value), "one for every "+d.Length(every.Value), every.Source
			if wanted := p.AccentCoverPct; wanted > 0 {
				n = min(cluster.Accents(c.LengthMM, c.Recipe, p.AccentRecipe, d.Push, wanted/100).Accents, mostAccents)
				how, source = "until "+measure.FormatPercent(wanted)+" of the background is hidden", scattered
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
	c.AccentsLaid = d.lay(c, d.blend(c, p.AccentRecipe, shares, true),
		layer{clusters: n, strands: 1, rule: pattern.Scattered, accent: true})
	c.AccentBalloons = c.Balloons - before
	tie := d.Figures.Row("ties/accent")
	ties := figures.RoundUp(float64(float64(n) * tie.Value))
	c.Ties += ties
	if c.Joined && !c.Kind.Covers {
		cover := cluster.AccentsCover(c.LengthMM, c.Recipe, p.AccentRecipe, d.Push, n)
		c.line("Background hidden",
			measure.FormatPercent(100*cover.Before)+" by the base, the rest by accents scattered over it",
			measure.FormatPercent(100*cover.After), scattered)
	}
	c.line("Accents", how, phrase.Count(n, "cluster")+" of "+cluster.Recipe(p.AccentRecipe).String(), source)
	c.line("Ties for accents", phrase.Count(n, "accent")+" x "+phrase.Number(tie.Value), phrase.Count(ties, "tie"),
		tie.Source)
}

// ableFor returns the shares of the colours that come in every size of the recipe; all shares if none does.
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
