package count

import (
	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/calc/cluster"
	"garlandry/calc/picture"
)

// PieceCount is the count of one piece.
type PieceCount struct {
	Piece          job.Piece
	LengthMM       float64        // of its line, 0 if it has none
	Recipe         cluster.Recipe // after substitutions
	Clusters       int
	Duplets        int
	Balloons       int // accents included
	Ties           int
	Accents        int // accent clusters
	AccentBalloons int
	By             []PieceBalloons // by size, then colour
	Bases          []Base          `json:",omitempty"` // where several are tied to one another
	Sections       []Section
	Layers         []LayerCount `json:",omitempty"` // on the base, the lowest first; without the accents
	Substitutes    []Substitute `json:"StandIns"`   // clusters of colours that lack a size of the recipe
	Laid           Laid         // its base, or its bunches
	AccentsLaid    Laid
	Accent         LayerCount      `json:"-"` // the accents as a layer, on top of all; no clusters: none
	Form           Form            `json:"-"` // how it is put together
	PitchMM        float64         `json:"-"` // between clusters of the base
	ApartMM        float64         `json:"-"` // between strings side by side
	Digits         []picture.Digit `json:"-"` // of a number frame
	Working        []figures.Line
	MakeKey        string // card that counts its clusters, "" if none
	AheadKey       string `json:",omitempty"` // card that counts those made at home for a piece built on site, "" if none
	FixKey         string // card that puts it up on site, "" if none
}

// PieceBalloons is how many balloons of one size and colour a piece takes, without spares.
type PieceBalloons struct {
	SizeIn int
	ToIn   float64
	Colour job.Colour
	Count  int
}

// Substitute is how to build the clusters of one colour that lacks a size of the recipe.
type Substitute struct {
	Colour    job.Colour
	Recipe    cluster.Recipe
	Clusters  int
	ClosesPct float64 // how much of the difference in size it makes up, 0 to 100
	Accent    bool    // among the accents, not in the base
	Layer     string  `json:",omitempty"` // id of the layer that it is in, not in the base
}

// Section is a length of base that is built and carried in one go.
type Section struct {
	Number   int // from 1
	Clusters int
	LengthMM float64
	Base     int `json:",omitempty"` // of several, from 1
}
