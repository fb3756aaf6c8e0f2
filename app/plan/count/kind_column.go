package count

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
)

// columns are clusters wound round an upright pole, each turned against the next.
func init() {
	register(Kind{
		Name:     "column",
		Teach:    "Clusters stacked on a pole, each turned against the last.",
		Measures: []string{"height_mm", "count"},
		Needed:   []string{"height_mm", "count"},
		Build:    []string{"frame", "recipe", "colours", "pattern"},
		More: []string{"mixes", "accents", "accent_recipe", "accent_colours", "accent_tie", "priority", "built",
			"ahead", "notes"},
		Begin: Begin{Name: "Columns", Recipe: "2x11@9.5", Built: "site"},
		Starts: []Start{{Key: "column", Picture: columnPicture,
			Label: "Columns", Ask: "how many", One: "column", Many: "columns", Metric: "2",
			Imperial: "2", Fields: []string{"count"}, Most: 500, With: map[string]any{"height_mm": 1800},
			Feet: map[string]any{"height_mm": 1828.8}}},
		Answers: []Answer{{Calculator: "column", Field: "height_mm", Label: "height", From: "height", Typed: true}},
		Form:    Stacked,
		Count:   (*Draft).column,
		OnPole:  true,
		Stand:   "pole",
		Work:    "shape",
		PutUp: func(_ *Draft, c *Counted) PutUp {
			return PutUp{
				Steps: append(append(
					[]string{"Wind each cluster round the pole, turned against the one below. Push it down."},
					c.Laid.OrderSteps(c.Laid.strandStarts(), "column", "from the foot up")...),
					"Tie a 260 round the pole and balloons at the foot and at the top."),
				First: "Foot first, then the pole. Push every joint home and stand it upright.",
				Last:  "Take poles and feet apart. Weights come last.",
				Row:   "shape-foot", Times: c.feet(), Together: true, Least: Pair, Most: Pair,
				Cautions: []string{"lifting"}}
		},
	})
}

func (d *Draft) column(c *Counted) {
	p := c.Piece
	columns := max(1, p.Count)
	if !(p.HeightMM > 0) {
		d.Warn(p.ID, p.Name+": no height yet, so nothing is counted.")
		return
	}
	c.HighMM = p.HeightMM
	d.uprights(c, p.HeightMM, columns)
	c.LineMM = c.LengthMM
	tie := d.Figures.Row("ties/column")
	ties := figures.RoundUp(float64(float64(columns) * tie.Value))
	c.line("Ties", phrase.Count(columns, "column")+" x "+phrase.Number(tie.Value), phrase.Count(ties, "tie"), tie.Source)
	if c.Clusters > 0 {
		c.Ties += ties
		c.Fix = Batch{columns, "column", "columns"}
	}
}

// columnPicture was drawn by hand.
var columnPicture = Picture{"M24 46V6M48 46V6M17 46h14M41 46h14", []float64{
	20, 41, 4.5, 28, 41, 4.5, 20, 33, 4.5, 28, 33, 4.5, 20, 25, 4.5, 28, 25, 4.5, 20, 17, 4.5, 28, 17, 4.5, 24, 8,
	6.5, 44, 41, 4.5, 52, 41, 4.5, 44, 33, 4.5, 52, 33, 4.5, 44, 25, 4.5, 52, 25, 4.5, 44, 17, 4.5, 52, 17, 4.5,
	48, 8, 6.5,
}}
