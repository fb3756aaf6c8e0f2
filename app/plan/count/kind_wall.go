package count

import (
	"garlandry/app/plan/phrase"
	"garlandry/calc/cluster"
)

// wall is upright bases side by side that overlap, as in the wall calculator.
func init() {
	register(Kind{
		Name:     "wall",
		Teach:    "A closed surface of clusters.",
		Measures: []string{"width_mm", "height_mm"},
		Needed:   []string{"width_mm", "height_mm"},
		Build:    []string{"frame", "recipe", "colours", "pattern"},
		More: []string{"mixes", "accents", "accent_recipe", "accent_colours", "accent_tie", "priority", "built",
			"ahead", "notes"},
		Begin: Begin{Name: "Wall", Recipe: "2x11@10", Built: "site"},
		Starts: []Start{{Key: "wall", Picture: wallPicture,
			Label: "Wall", Ask: "width x height", One: "wall", Metric: "2.4 x 2.1 m",
			Imperial: "8 x 7 ft", Fields: []string{"width_mm", "height_mm"}, With: map[string]any{"height_mm": 2100},
			Feet: map[string]any{"height_mm": 2133.6}}},
		Answers: []Answer{
			{Calculator: "wall", Field: "width_mm", Label: "width", From: "width", Typed: true},
			{Calculator: "wall", Field: "height_mm", Label: "height", From: "height", Typed: true},
		},
		Form:   Strips,
		Count:  (*Draft).wall,
		Covers: true,
		Work:   "shape",
		PutUp:  fixWall,
	})
}

// fixWall puts up a wall: string by string, on the frame or net that carries it.
func fixWall(d *Draft, c *Counted) PutUp {
	up := fixBase(d, c)
	up.Steps = []string{
		"Two of you carry each string to its place. Work from one side to the other, each string against the last.",
		"Tie a 260 round a few balloons and the frame or net, every " + d.Length(d.Figures.Get("ties/fix-every")) +
			" and at both ends.",
		"Look from the door. Push strings together where the background shows. Then hide the ties.",
	}
	up.First = "Two of you: first put up the frame or net that carries it. Pull at it before you hang anything on it."
	up.Last = "Take the frame or net down, two of you. Weights come last."
	return up
}

func (d *Draft) wall(c *Counted) {
	p := c.Piece
	if !(p.HeightMM > 0) || !(p.WidthMM > 0) {
		d.Warn(p.ID, p.Name+": no width or height yet, so nothing is counted.")
		return
	}
	c.HighMM = p.HeightMM
	columns := 1
	if p.Recipe.Duplets() > 0 {
		columns = d.wallColumns(c)
	}
	d.uprights(c, p.HeightMM, columns)
	d.cut(c, p.HeightMM, c.Clusters/columns, columns, 0)
	d.joinTies(c, columns*d.fixTies(p.HeightMM))
	c.LineMM = c.LengthMM
	if len(c.Sections) == columns {
		c.Fix = Batch{columns, "string", "strings"}
	}
}

// wallColumns returns how many upright bases stand side by side. The first is as wide as it looks. Each further one
// adds its width less the overlap, or what its balloons need, see [cluster.SideBySideMM].
func (d *Draft) wallColumns(c *Counted) int {
	nest := d.Figures.Row("wall/nest")
	width := cluster.WidthMM(c.Piece.Recipe, d.Push)
	apart, _ := cluster.SideBySideMM(c.Piece.Recipe, d.Push, nest.Value)
	c.ApartMM = apart
	columns := max(1, layersFor(c.Piece.WidthMM, apart, width))
	how := "the first is " + d.SmallMM(width) + " wide, each further one adds " + d.SmallMM(apart) + ", up to " +
		d.Length(c.Piece.WidthMM)
	c.line("Strings side by side", how, phrase.Count(columns, "string"), nest.Source)
	return columns
}

// wallPicture was drawn by hand.
var wallPicture = Picture{"M8 3h56v42H8z", []float64{
	14, 9, 5.5, 25, 8, 6, 36, 9, 5.5, 47, 8, 6, 58, 9, 5.5, 14, 19, 6, 25, 19, 5.5, 36, 19, 6, 47, 19, 5.5, 58,
	19, 6, 14, 29, 5.5, 25, 30, 6, 36, 29, 5.5, 47, 30, 6, 58, 29, 5.5, 14, 39, 6, 25, 40, 5.5, 36, 39, 6, 47, 40,
	5.5, 58, 39, 6,
}}
