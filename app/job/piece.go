package job

import "garlandry/calc/cluster"

// PieceKind is what a piece is.
type PieceKind string

// The kinds of piece.
const (
	Garland  PieceKind = "garland"
	Hoop     PieceKind = "hoop"
	Column   PieceKind = "column"
	Wall     PieceKind = "wall"
	Bouquets PieceKind = "bouquets"
	Tables   PieceKind = "tables"
	Numbers  PieceKind = "numbers"
	Free     PieceKind = "free"
)

// Share is a colour's weight in a piece.
type Share struct {
	Colour string  `json:"colour"` // id in the palette
	Weight float64 `json:"weight"` // any scale; 2 beside 1 means twice as many
}

// TypedCount is a number of balloons typed by hand for a free piece or a bouquet.
type TypedCount struct {
	SizeIn int     `json:"size_in"`
	ToIn   float64 `json:"to_in,omitempty"` // 0: the décor fill of the size
	Colour string  `json:"colour"`
	Count  int     `json:"count"`
}

// Piece is one thing to build.
type Piece struct {
	ID           string         `json:"-"`
	Name         string         `json:"name"`
	Kind         PieceKind      `json:"kind"`
	Line         string         `json:"line"` // typed, arc, arch
	LengthMM     float64        `json:"length_mm"`
	WidthMM      float64        `json:"width_mm"`
	HeightMM     float64        `json:"height_mm"`
	DiameterMM   float64        `json:"diameter_mm"`
	PartPct      float64        `json:"part_pct"`
	Frame        string         `json:"frame"` // id in the kit, empty for none
	Recipe       cluster.Recipe `json:"recipe"`
	Colours      []Share        `json:"colours"`
	AccentRecipe cluster.Recipe `json:"accent_recipe"`
	Accents      int            `json:"accents"` // how many clusters; -1: by the rule
	AccentShares []Share        `json:"accent_colours"`
	Count        int            `json:"count"` // bouquets, tables or columns
	Each         int            `json:"each"`  // balloons in one
	SizeIn       int            `json:"size_in"`
	ToIn         float64        `json:"to_in"`
	Gas          string         `json:"gas"`    // air or helium
	Digits       string         `json:"digits"` // of a number frame
	Counts       []TypedCount   `json:"counts"` // of a free piece
	Priority     string         `json:"priority"`
	Built        string         `json:"built"` // home or site
	Notes        string         `json:"notes"`
	Order        float64        `json:"order"`
}

func pieceNoun() Noun {
	return Noun{Name: "piece", InFile: "pieces", Label: "Piece", Fields: append([]Field{
		required(text("name", "Name", 80, "What the crew calls it: door garland.")),
		required(oneOf("kind", "What it is", "",
			Choice{string(Garland), "Garland"}, Choice{string(Hoop), "Hoop garland"}, Choice{string(Column), "Column"}, Choice{string(Wall), "Wall"},
			Choice{string(Bouquets), "Bouquets"}, Choice{string(Tables), "Table pieces"}, Choice{string(Numbers), "Number frame"}, Choice{string(Free), "Free piece"})),
		oneOf("line", "Its line", "How the garland runs.", Choice{"typed", "A length I know"}, Choice{"arc", "An arc: width and height"}, Choice{"arch", "An arch: two legs and a round top"}),
		number(Length, "length_mm", "Length", 100, 500000, "3000", "Along the garland."),
		number(Length, "width_mm", "Width", 100, 100000, "2400", ""),
		number(Length, "height_mm", "Height", 100, 50000, "2000", ""),
		number(Length, "diameter_mm", "Diameter", 100, 20000, "2000", "Of the hoop."),
		number(Number, "part_pct", "Part of the circle", 1, 100, "60", "Percent of the hoop that carries balloons."),
		{Name: "frame", Label: "On the frame", Kind: Reference, Refers: "kit", Help: "From your kit, or none."},
		{Name: "recipe", Label: "Recipe", Kind: Recipe, Default: `"3x11@10"`, Help: "What one cluster is made of, in duplets: 2x11@10 + 1x18@16 is two duplets of 11-inch sized to 10 in and one of 18-inch sized to 16 in."},
		{Name: "colours", Label: "Colours", Kind: Shares, Default: "[]", Help: "How much of each; twice the figure, twice the balloons."},
		{Name: "accent_recipe", Label: "Accent recipe", Kind: Recipe, Default: `"2x5@4.5"`, Help: "The small clusters on top."},
		number(Whole, "accents", "Accent clusters", -1, 2000, "-1", "How many; empty for the usual one per two feet."),
		{Name: "accent_colours", Label: "Accent colours", Kind: Shares, Default: "[]", Help: "Empty: as the piece."},
		number(Whole, "count", "How many", 1, 500, "1", "Bouquets, tables or columns."),
		number(Whole, "each", "Balloons in each", 1, 500, "5", ""),
		number(Whole, "size_in", "Balloon size", 5, 36, "11", "Nominal inches."),
		number(Number, "to_in", "Sized to, inches", 2, 36, "10", ""),
		oneOf("gas", "Filled with", "", Choice{"air", "Air"}, Choice{"helium", "Helium"}),
		digits("digits", "Digits", 8, "Up to eight digits from 0 to 9, such as 40."),
		{Name: "counts", Label: "Balloons", Kind: TypedCounts, Default: "[]"},
		oneOf("priority", "Priority", "What to leave out last.", Choice{"must", "Must"}, Choice{"should", "Should"}, Choice{"could", "Could"}),
		oneOf("built", "Built", "", Choice{"home", "At home, in sections"}, Choice{"site", "On site"}),
		longText("notes", "Notes", ""),
	}, commonFields()...)}
}
