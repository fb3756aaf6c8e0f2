package job

import "garlandry/calc/cluster"

// Layer is clusters that sit on a piece and shape it: they thicken it, round it off or swell it out. A piece carries
// any number of layers, one on another in their order; accents come on top of all.
type Layer struct {
	ID     string         `json:"-"`
	Piece  string         `json:"piece"` // id
	Name   string         `json:"name"`  // as typed, see [Layer.Called]
	Recipe cluster.Recipe `json:"recipe"`
	Shares []Share        `json:"colours"` // empty: as the piece
	Count  int            `json:"count"`   // clusters; -1: by the rule
	// how much of its stretch the base and the layer are to hide, where Count is -1; 0: by the spacing
	CoverPct float64 `json:"cover_pct"`
	FromPct  float64 `json:"from_pct"` // the stretch of the line, 0 to 100 from its start, or from the foot
	ToPct    float64 `json:"to_pct"`
	Side     string  `json:"side"`  // around, outer, inner
	Built    string  `json:"built"` // piece: where the piece is; home; site
	Tie      string  `json:"tie"`   // each, pair, half, glue
	Notes    string  `json:"notes"`
	Order    float64 `json:"order"`
}

// Called returns the layer's name, or the usual one if it has none.
func (l *Layer) Called() string {
	if l.Name == "" {
		return "Thickening"
	}
	return l.Name
}

// CheckTogether reports a stretch that ends before it begins.
func (l *Layer) CheckTogether() []*FieldError {
	if l.ToPct > l.FromPct {
		return nil
	}
	return []*FieldError{{"to_pct", "Until must be more than from"}}
}

// LayersOf returns the layers of a piece, the lowest first.
func (j Job) LayersOf(piece string) (list []*Layer) {
	for i := range j.Layers {
		if j.Layers[i].Piece == piece {
			list = append(list, &j.Layers[i])
		}
	}
	return list
}

// Ties returns how a cluster can be tied onto a base, in the order in which they are offered. Common practice.
func Ties() []Choice {
	return []Choice{
		{"each", "A whole 260 for each cluster"},
		{"pair", "A 260 with a cluster at each end"},
		{"half", "Half a 260 for each cluster"},
		{"glue", "Glue dots"},
	}
}

var layerNoun = Noun{Name: "layer", InFile: "layers", Label: "Layer", Fields: []Field{
	{Name: "piece", Label: "On the piece", Kind: Reference, Refers: "piece", Required: true},
	{Name: "name", Label: "Name", Kind: Text, Max: 80, Help: "Empty: Thickening."},
	{Name: "recipe", Label: "Recipe", Kind: Recipe, Default: `"2x11@10"`, Help: "Two or three duplets a cluster."},
	{Name: "colours", Label: "Colours", Kind: Shares, Default: "[]", Help: "Empty: as the piece."},
	{Name: "count", Label: "Clusters", Kind: Whole, Min: -1, Max: 2000, Default: "-1", Help: "Empty: one every foot."},
	{Name: "cover_pct", Label: "Until hidden", Kind: Number, Max: 99.5, Default: "null",
		Help: "Percent covered. Used without a number above."},
	{Name: "from_pct", Label: "From", Kind: Number, Max: 100, Default: "0",
		Help: "Percent of the length, from start or foot."},
	{Name: "to_pct", Label: "Until", Kind: Number, Max: 100, Default: "100", Help: "Percent of the length."},
	{Name: "side", Label: "Side", Kind: OneOf, Default: `"around"`,
		Choices: []Choice{{"around", "All round"}, {"outer", "Outer side"}, {"inner", "Inner side"}}},
	{Name: "built", Label: "Made", Kind: OneOf, Default: `"piece"`,
		Choices: []Choice{{"piece", "Where the piece is made"}, {"home", "At home"}, {"site", "On site"}}},
	{Name: "tie", Label: "Tied with", Kind: OneOf, Default: `"each"`, Choices: Ties()},
	{Name: "notes", Label: "Notes", Kind: LongText, Max: 4000},
	orderField,
	removedField,
}}
