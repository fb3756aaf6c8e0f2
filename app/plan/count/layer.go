package count

import (
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/calc/cluster"
	"garlandry/calc/measure"
	"garlandry/calc/pattern"
)

// LayerCount is the count of what sits on a base: a layer that shapes it, or its accents.
type LayerCount struct {
	ID       string // of the layer; "" for the accents
	Name     string // "Thickening", "Accents"
	Recipe   cluster.Recipe
	Clusters int
	Balloons int
	By       []PieceBalloons // by size, then colour
	Laid     Laid
	Tie      string // see [job.Ties]
	Ties     int
	GlueDots int     `json:",omitempty"` // that hold it
	FromPct  float64 // the stretch of the line, from its start or foot
	ToPct    float64
	Side     string // around, outer, inner
	MakeKey  string // card that counts its clusters
	FixKey   string // card that puts it on
	OnSite   bool   `json:"-"` // made on site, not at home
	Parts    []part `json:"-"` // its duplets by size, for their minutes
	Notes    string `json:"-"`
}

// On lists what sits on the base, the lowest first: layers, then accents.
func (c *PieceCount) On() []*LayerCount {
	list := make([]*LayerCount, 0, len(c.Layers)+1)
	for i := range c.Layers {
		list = append(list, &c.Layers[i])
	}
	if c.Accent.Clusters > 0 {
		list = append(list, &c.Accent)
	}
	return list
}

// Own lists the balloons of a piece without those of its layers.
func (c *PieceCount) Own() []PieceBalloons {
	if len(c.Layers) == 0 {
		return c.By
	}
	left := append([]PieceBalloons(nil), c.By...)
	for i := range c.Layers {
		for _, b := range c.Layers[i].By {
			b.Count = -b.Count
			left = plus(left, b)
		}
	}
	return left
}

// BaseBalloons returns how many balloons the base has, with its substitutes.
func (c *PieceCount) BaseBalloons() int {
	n := c.Balloons
	for _, on := range c.On() {
		n -= on.Balloons
	}
	return n
}

// isAccent reports whether a layer is the accents.
func (l *LayerCount) isAccent() bool { return l != nil && l.ID == "" }

// asked returns the choice key, without colour and size, of an answer for this layer alone.
func (l *LayerCount) asked(piece string) string {
	switch {
	case l == nil:
		return "substitute/" + piece
	case l.isAccent():
		return "substitute/" + piece + "/accent"
	}
	return "substitute/layer/" + l.ID
}

// substitute describes a group of substitutes in a layer; nil stands for the base.
func (l *LayerCount) substitute(g group, clusters int) Substitute {
	s := Substitute{Colour: g.colours[0], Recipe: g.recipe, Clusters: clusters, ClosesPct: g.closesPct,
		Accent: l.isAccent()}
	if l != nil {
		s.Layer = l.ID
	}
	return s
}

// mostOn is the most clusters that a layer may have, the same as the form's limit.
const mostOn = 2000

// scattered is the source of what a layer hides, see [cluster.Accents].
var scattered = figures.Source{Text: "what is seen from the front in the model of the base; discs scattered at random",
	Mark: figures.FromMemory}

// layers counts what sits on the base: the layers in their order, then the accents as one that covers all of it.
func (d *Draft) layers(c *Counted) {
	p := &c.Piece
	for _, l := range d.Job.LayersOf(p.ID) {
		n, how, source := d.onCount(c, l, "layers/spacing")
		if n == 0 {
			if l.Count != 0 {
				d.Warn(p.ID, p.Name+": "+l.Called()+" has no clusters yet. Type how many.")
			}
			continue
		}
		on := d.on(c, l, n)
		on.MakeKey, on.FixKey = job.CardKey("layer", l.ID), job.CardKey("grow", l.ID)
		d.onLines(c, &on, how, source, "ties/layer")
		c.Layers = append(c.Layers, on)
	}
	accents := job.Layer{Name: "Accents", Recipe: p.AccentRecipe, Shares: p.AccentShares, Count: p.Accents,
		CoverPct: p.AccentCoverPct, ToPct: 100, Tie: p.AccentTie, Built: "piece", Side: "around"}
	if accents.Count < 0 && !(c.Joined && c.Kind.AccentsBySpacing) {
		return
	}
	n, how, source := d.onCount(c, &accents, "accents/spacing")
	if n == 0 {
		return
	}
	c.Accent = d.on(c, &accents, n)
	c.Accents, c.AccentBalloons, c.AccentsLaid = n, c.Accent.Balloons, c.Accent.Laid
	c.Accent.MakeKey, c.Accent.FixKey = job.CardKey("accents", p.ID), job.CardKey("dress", p.ID)
	d.onLines(c, &c.Accent, how, source, "ties/accent")
}

// stretchMM returns how much of the base a layer sits on, all strands together.
func (c *Counted) stretchMM(fromPct, toPct float64) float64 {
	return float64(c.LengthMM * (max(0, toPct-fromPct) / 100))
}

// onCount returns how many clusters a layer has: the typed number, else as many as hide the wanted share of the
// background, else one for every so much of its stretch.
func (d *Draft) onCount(c *Counted, l *job.Layer, spacing string) (n int, how string, source figures.Source) {
	long := c.stretchMM(l.FromPct, l.ToPct)
	switch {
	case l.Count >= 0:
		n, how, source = l.Count, "typed", figures.Source{Text: "your own count", Mark: figures.Measured}
	case l.CoverPct > 0:
		d.Figures.Row(spacing)
		n = min(cluster.Accents(long, c.Recipe, l.Recipe, d.Push, l.CoverPct/100).Accents, mostOn)
		how, source = "until "+measure.FormatPercent(l.CoverPct)+" of the background is hidden", scattered
	default:
		every := d.Figures.Row(spacing)
		n, how, source = figures.RoundUp(long/every.Value), "one for every "+d.Length(every.Value), every.Source
	}
	if l.Recipe.Duplets() == 0 {
		n = 0
	}
	return n, how, source
}

// on deals the clusters of a layer and adds them to the piece.
func (d *Draft) on(c *Counted, l *job.Layer, n int) LayerCount {
	on := LayerCount{ID: l.ID, Name: l.Called(), Recipe: l.Recipe, Clusters: n, FromPct: l.FromPct, ToPct: l.ToPct,
		Side: l.Side, Tie: l.Tie, Notes: l.Notes, OnSite: c.OnSite}
	switch {
	case l.Built == "site" || c.Carried == NotCarried:
		on.OnSite = true
	case l.Built == "home":
		on.OnSite = false
	}
	shares := l.Shares
	if len(shares) == 0 {
		shares = d.ableFor(l.Recipe, c.Piece.Colours)
	}
	on.Laid = d.lay(c, d.blend(c, l.Recipe, shares, &on),
		layer{clusters: n, strands: 1, rule: pattern.Scattered, on: &on})
	return on
}

// onLines adds the ties of a layer and says how it was counted.
func (d *Draft) onLines(c *Counted, on *LayerCount, how string, source figures.Source, tieKey string) {
	if c.Joined && !c.Kind.Covers {
		cover := cluster.AccentsCover(c.stretchMM(on.FromPct, on.ToPct), c.Recipe, on.Recipe, d.Push, on.Clusters)
		c.line("Background hidden",
			measure.FormatPercent(100*cover.Before)+" by the base, the rest by "+strings.ToLower(on.Name)+
				" scattered over it", measure.FormatPercent(100*cover.After), scattered)
	}
	c.line(on.Name, how+on.where(), phrase.Count(on.Clusters, "cluster")+" of "+on.Recipe.String(), source)
	noun, each := "cluster", &figures.Figure{Value: 1, Source: figures.Usual}
	if on.isAccent() {
		noun = "accent"
	}
	n, what, title := &on.Ties, "tie", "Ties for "
	switch on.Tie {
	case "glue":
		n, what, title, each = &on.GlueDots, "dot", "Glue dots for ", d.Figures.Row("ties/glue-dots")
	case "each":
	default:
		each = d.Figures.Row(tieKey)
	}
	*n = figures.RoundUp(float64(float64(on.Clusters) * each.Value))
	c.Ties += on.Ties
	c.line(title+strings.ToLower(on.Name), phrase.Count(on.Clusters, noun)+" x "+phrase.Number(each.Value),
		phrase.Count(*n, what), each.Source)
}

// where says on which stretch and side a layer sits, after a comma; empty for all of it.
func (l *LayerCount) where() string {
	words := ""
	if l.FromPct > 0 || l.ToPct < 100 {
		words = ", from " + phrase.Number(l.FromPct) + " to " + phrase.Number(l.ToPct) + " %"
	}
	if l.Side == "outer" || l.Side == "inner" {
		words += ", " + l.Side + " side"
	}
	return words
}

// Words describes a layer: "9 clusters, 2x11@10, from 60 to 100 %, outer side".
func (l *LayerCount) Words() string {
	return phrase.Count(l.Clusters, "cluster") + ", " + l.Recipe.String() + l.where()
}

// LayerWords describes the layer with the id.
func (c *PieceCount) LayerWords(id string) string {
	for i := range c.Layers {
		if c.Layers[i].ID == id {
			return c.Layers[i].Words()
		}
	}
	return "No clusters yet"
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
