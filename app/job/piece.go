package job

import (
	"strconv"

	"garlandry/calc/cluster"
)

// PieceKind names what a piece is, see [PieceKinds].
type PieceKind string

// PieceKinds returns the kinds of piece with their labels, in the order in which they are offered. The first is the
// default. How a kind is counted and built stands in its file in app/plan/count, such as kind_column.go.
func PieceKinds() []Choice {
	return []Choice{
		{"garland", "Garland"},
		{"hoop", "Hoop garland"},
		{"column", "Column"},
		{"wall", "Wall"},
		{"bouquets", "Bouquets"},
		{"tables", "Table pieces"},
		{"numbers", "Number frame"},
		{"free", "Free piece"},
	}
}

// ByHand is the pattern whose clusters the decorator picks one by one, see [Piece].
const ByHand = "hand"

// Patterns returns how colours can lie along a piece, in the order in which they are offered. The first is the default.
func Patterns() []Choice {
	return []Choice{
		{"scattered", "Scattered"},
		{"spiral", "Spiral"},
		{"rings", "Rings"},
		{"bands", "Bands"},
		{"fade", "Fade"},
		{"single", "One colour a cluster"},
		{ByHand, "By hand"},
	}
}

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
	Bases        []float64      `json:"bases,omitempty"` // mm, lengths of several bases along the line; empty: one
	WidthMM      float64        `json:"width_mm"`
	HeightMM     float64        `json:"height_mm"`
	DiameterMM   float64        `json:"diameter_mm"`
	PartPct      float64        `json:"part_pct"`
	PartAt       string         `json:"part_at"` // where its middle lies: top, left, right, bottom
	Frame        string         `json:"frame"`   // id in the kit, empty for none
	Recipe       cluster.Recipe `json:"recipe"`
	Colours      []Share        `json:"colours"`
	Pattern      string         `json:"pattern"` // how the colours lie along it, see [Patterns]
	Mixes        int            `json:"mixes"`   // how many kinds of cluster a scattered pattern may have
	Hand         string         `json:"hand"`    // the kind picked for each cluster where the pattern is [ByHand]
	AccentRecipe cluster.Recipe `json:"accent_recipe"`
	Accents      int            `json:"accents"` // how many clusters; -1: by the rule
	// how much the base and its accents are to hide, where Accents is -1; 0: by the spacing
	AccentCoverPct float64      `json:"accent_cover_pct"`
	AccentShares   []Share      `json:"accent_colours"`
	AccentTie      string       `json:"accent_tie"` // see [Ties]
	Count          int          `json:"count"`      // bouquets, tables or columns
	Each           int          `json:"each"`       // balloons in one
	SizeIn         int          `json:"size_in"`
	ToIn           float64      `json:"to_in"`  // 0: the usual of the size, [latex.UsualIn]
	Gas            string       `json:"gas"`    // air or helium
	Digits         string       `json:"digits"` // of a number frame
	Counts         []TypedCount `json:"counts"` // of a free piece
	Priority       string       `json:"priority"`
	Built          string       `json:"built"` // home or site
	Ahead          int          `json:"ahead"` // how many of what is made on site are made at home beforehand
	Notes          string       `json:"notes"`
	AtMM           *float64     `json:"at_mm,omitempty"` // its middle, from the room's left; nil: placed automatically
	UpMM           *float64     `json:"up_mm,omitempty"` // its lowest point above the floor; nil: as its kind stands
	Order          float64      `json:"order"`
}

var pieceNoun = Noun{Name: "piece", InFile: "pieces", Label: "Piece", Fields: []Field{
	{Name: "name", Label: "Name", Kind: Text, Required: true, Max: 80, Help: "What the crew calls it: door garland."},
	{Name: "kind", Label: "What it is", Kind: OneOf, Required: true, Default: strconv.Quote(PieceKinds()[0].Value),
		Choices: PieceKinds()},
	{Name: "line", Label: "Its line", Kind: OneOf, Default: `"typed"`,
		Choices: []Choice{{"typed", "A length I know"}, {"arc", "An arc: width and height"},
			{"arch", "An arch: two legs and a round top"}}},
	{Name: "length_mm", Label: "Length", Kind: Length, Min: 100, Max: 500000, Default: "3000", Help: "Along the garland."},
	{Name: "bases", Label: "Its bases", Kind: Lengths, Min: 100, Max: 500000, Default: "[]",
		Help: "Several, tied together: their lengths in order."},
	{Name: "width_mm", Label: "Width", Kind: Length, Min: 100, Max: 100000, Default: "2400"},
	{Name: "height_mm", Label: "Height", Kind: Length, Min: 100, Max: 50000, Default: "2000"},
	{Name: "diameter_mm", Label: "Diameter", Kind: Length, Min: 100, Max: 20000, Default: "2000", Help: "Of the hoop."},
	{Name: "part_pct", Label: "Part of the circle", Kind: Number, Min: 1, Max: 100, Default: "60",
		Help: "Percent of the hoop that carries balloons."},
	{Name: "part_at", Label: "Where on the circle", Kind: OneOf, Default: `"left"`,
		Choices: []Choice{{"top", "Top"}, {"left", "Left"}, {"right", "Right"}, {"bottom", "Bottom"}},
		Help:    "Its middle, seen from the front."},
	{Name: "frame", Label: "On the frame or stand", Kind: Reference, Refers: "kit", Help: "From your kit, or none."},
	{Name: "recipe", Label: "Recipe", Kind: Recipe, Default: `"3x11@10"`,
		Help: "The duplets of one cluster. 2x11@10 + 1x18@16: two of 11-inch sized to 10 in and one of 18-inch sized to " +
			"16 in."},
	{Name: "colours", Label: "Colours", Kind: Shares, Default: "[]",
		Help: "How much of each colour."},
	{Name: "pattern", Label: "Pattern", Kind: OneOf, Default: `"scattered"`, Choices: Patterns(),
		Help: "How the colours lie along it."},
	{Name: "mixes", Label: "Kinds of cluster", Kind: Whole, Min: 2, Max: 6, Default: "4",
		Help: "The most to make of a scattered piece, and perhaps an odd one."},
	{Name: "hand", Label: "Picked by hand", Kind: LongText, Max: 20000,
		Help: "The kind of each cluster, if it was picked."},
	{Name: "accent_recipe", Label: "Accent recipe", Kind: Recipe, Default: `"2x5@4.5"`,
		Help: "The small clusters on top."},
	{Name: "accents", Label: "Accent clusters", Kind: Whole, Min: -1, Max: 2000, Default: "-1",
		Help: "Empty: one every two feet."},
	{Name: "accent_cover_pct", Label: "Accents until hidden", Kind: Number, Max: 99.5, Default: "null",
		Help: "Percent covered. Used without a number above."},
	{Name: "accent_colours", Label: "Accent colours", Kind: Shares, Default: "[]", Help: "Empty: as the piece."},
	{Name: "accent_tie", Label: "Accents tied with", Kind: OneOf, Default: `"pair"`, Choices: Ties()},
	{Name: "count", Label: "How many", Kind: Whole, Min: 1, Max: 500, Default: "1", Help: "Bouquets, tables or columns."},
	{Name: "each", Label: "Balloons in each", Kind: Whole, Min: 1, Max: 500, Default: "5"},
	{Name: "size_in", Label: "Balloon size", Kind: Whole, Min: 5, Max: 36, Default: "11", Help: "Nominal inches."},
	{Name: "to_in", Label: "Sized to, inches", Kind: Number, Min: 2, Max: 36, Default: "null",
		Help: "Empty: the usual for its size."},
	{Name: "gas", Label: "Filled with", Kind: OneOf, Default: `"air"`,
		Choices: []Choice{{"air", "Air"}, {"helium", "Helium"}}},
	{Name: "digits", Label: "Digits", Kind: Text, Max: 8, Only: "0123456789 ",
		Help: "Up to eight digits, such as 40."},
	{Name: "counts", Label: "Balloons", Kind: TypedCounts, Default: "[]"},
	{Name: "priority", Label: "Priority", Kind: OneOf, Default: `"must"`,
		Choices: []Choice{{"must", "Must"}, {"should", "Should"}, {"could", "Could"}},
		Help:    "What to leave out last."},
	{Name: "built", Label: "Built", Kind: OneOf, Default: `"home"`,
		Choices: []Choice{{"home", "At home, in sections"}, {"site", "On site"}}},
	{Name: "ahead", Label: "Made ahead", Kind: Whole, Max: 10000, Default: "0",
		Help: "How many are made at home."},
	{Name: "at_mm", Label: "Middle at", Kind: Length, Min: -100000, Max: 100000, Default: "null",
		Help: "From the room's left. Empty: placed automatically."},
	{Name: "up_mm", Label: "Above the floor", Kind: Length, Min: -10000, Max: 50000, Default: "null",
		Help: "Its lowest balloon."},
	{Name: "notes", Label: "Notes", Kind: LongText, Max: 4000},
	orderField,
	removedField,
}}
