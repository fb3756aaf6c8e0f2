package count

import (
	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/calc/measure"
	"garlandry/calc/outline"
)

// garland is a base along a line: a typed length, an arc or an arch.
func init() {
	register(Kind{
		Name:     "garland",
		Teach:    "Clusters on a string, along a wall, a beam or a frame.",
		Measures: []string{"line"},
		Build:    []string{"frame", "recipe", "colours", "pattern"},
		More: []string{"bases", "mixes", "accents", "accent_cover_pct", "accent_recipe", "accent_colours", "accent_tie",
			"priority", "built", "ahead", "notes"},
		ByLine: func(line string) []string {
			if line == "arc" || line == "arch" {
				return []string{"width_mm", "height_mm"}
			}
			return []string{"length_mm"}
		},
		Begin: Begin{Name: "Garland"},
		Starts: []Start{
			{Key: "garland", Picture: garlandPicture,
				Label: "Garland", Ask: "how long", One: "garland", Metric: "3 m", Imperial: "10 ft",
				Fields: []string{"length_mm"}},
			{Key: "arch", Picture: archPicture,
				Label: "Arch", Ask: "width x height", One: "arch", Metric: "2.6 x 2.4 m", Imperial: "8 x 8 ft",
				Fields: []string{"width_mm", "height_mm"}, With: map[string]any{"name": "Arch", "line": "arch"}},
		},
		Answers: []Answer{
			{Calculator: "outline", Field: "length_mm", Label: "length", From: "length_mm"},
			{Calculator: "clusters", Field: "length_mm", Label: "length", From: "length", Typed: true},
			{Calculator: "accents", Field: "length_mm", Label: "length", From: "length", Typed: true},
		},
		Form:             Strung,
		Count:            (*Draft).garland,
		AccentsBySpacing: true,
		Work:             "shape",
		PutUp:            fixBase,
		Line: func(p job.Piece) (outline.Shape, bool) {
			switch p.Line {
			case "arch":
				return outline.Shape{Kind: outline.Arch, WidthMM: p.WidthMM, HeightMM: p.HeightMM}, true
			case "arc":
				return outline.Shape{Kind: outline.Arc, WidthMM: p.WidthMM, HeightMM: p.HeightMM}, true
			}
			return outline.Shape{}, false
		},
	})
}

func (d *Draft) garland(c *Counted) {
	p := c.Piece
	shape, how := outline.Shape{Kind: outline.Line, LengthMM: p.LengthMM}, "the length you typed"
	c.HighMM = 0
	switch p.Line {
	case "arc":
		shape = outline.Shape{Kind: outline.Arc, WidthMM: p.WidthMM, HeightMM: p.HeightMM}
		how = "an arc " + d.Length(p.WidthMM) + " wide and " + d.Length(p.HeightMM) + " high"
		c.HighMM = p.HeightMM
	case "arch":
		shape = outline.Shape{Kind: outline.Arch, WidthMM: p.WidthMM, HeightMM: p.HeightMM}
		how = "an arch " + d.Length(p.WidthMM) + " wide and " + d.Length(p.HeightMM) + " high, legs and a round top"
		c.HighMM = p.HeightMM
	}
	d.along(c, shape, how)
}

// along counts a base that follows a line.
func (d *Draft) along(c *Counted, shape outline.Shape, how string) {
	bases := c.Piece.Bases
	lineMM := shape.LengthMM
	if shape.Kind == outline.Line && len(bases) > 0 {
		shape.LengthMM = sumMM(bases)
	}
	lengthMM, err := outline.Length(shape)
	if err == nil {
		_, err = outline.LineMM(max(lengthMM, sumMM(bases)))
	}
	if err != nil {
		d.Warn(c.Piece.ID,
			c.Piece.Name+": it has no length yet, so nothing is counted ("+measure.Reword(err.Error(), d.Units)+").")
		return
	}
	if frame, known := d.Job.KitItem(c.Piece.Frame); known && c.Piece.Frame != "" {
		c.HighMM = max(c.HighMM, frame.HeightMM)
	}
	source := figures.Source{Text: "geometry of the line", Mark: figures.Published}
	if shape.Kind == outline.Line {
		source = figures.Source{Text: "typed", Mark: figures.Measured}
	}
	c.line("Length", how, d.Length(lengthMM), source)
	typed := shape.Kind == outline.Line
	if !typed {
		lineMM = lengthMM
	}
	if len(bases) > 0 {
		d.offNote(c, lineMM, typed)
	} else {
		bases = []float64{lengthMM}
	}
	d.strung(c, bases)
	c.LineMM = c.LengthMM
}

// garlandPicture was drawn by hand.
var garlandPicture = Picture{"M5 12Q36 46 67 12", []float64{
	8, 14, 5.5, 15, 21, 6, 23, 26, 5.5, 31, 30, 6.5, 41, 30, 5.5, 49, 26, 6, 57, 21, 5.5, 64, 14, 6, 11, 20, 3,
	27, 32, 3, 45, 22, 3, 60, 14, 3,
}}

// archPicture was drawn by hand.
var archPicture = Picture{"M9 46V30C9 0 63 0 63 30V46", []float64{
	10, 42, 5.5, 9, 33, 5, 11, 24, 5.5, 17, 15, 5, 26, 9, 5.5, 36, 7, 5.5, 46, 9, 5, 55, 15, 5.5, 61, 24, 5, 63,
	33, 5.5, 62, 42, 5, 15, 30, 3, 31, 13, 3, 57, 22, 3,
}}
