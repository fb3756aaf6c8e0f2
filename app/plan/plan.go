// Package plan computes what a job needs from what a job is: counts, pack list, cards and the window, each line under a
// stable key that means the thing, so that progress survives a change of design.
//
// It is pure: no clock, no storage, no randomness. It holds the trade's default tables; every figure carries its mark
// and gives way to the user's own. Start at [Make].
package plan

import (
	"garlandry/app/job"
	"garlandry/calc/cluster"
)

// Plan is everything derived from a job.
type Plan struct {
	Pieces   []PieceCount  // in the job's order
	Balloons []BalloonLine // by size, then colour in palette order
	Ties     int           // 260s used as ties, without spares
	Pack     []Bag         // in packing order
	Cards    []Card        // in working order: home, load, site, take-down
	Window   Window
	Notes    []Note   // what the plan decided or warns of
	Figures  []Figure // table values the plan used

	stays []string // names of pieces made at home that the car does not take
}

// Line is one step of a working: what, how, result; with its source.
type Line struct {
	What, How, Result string
	Source            Source
}

// Source says where a figure comes from.
type Source struct {
	Text string // "rings turned against each other touch at 0.8409 d"
	Mark Mark
}

// Mark is how far a figure can be trusted.
type Mark string

// The marks.
const (
	Published      Mark = "published"
	CommonPractice Mark = "common practice"
	FromMemory     Mark = "from memory"
	Measured       Mark = "measured by you"
)

// Figure is one value of the trade tables as this job uses it.
type Figure struct {
	Key        string // "minutes/duplet/11/beginner"; the override is entity "override/"+Key
	Group      string // heading it is listed under
	Label      string
	Value      float64
	Default    float64
	Min, Max   float64
	Unit       string
	Source     Source
	Overridden bool
}

// PieceCount is what one piece takes.
type PieceCount struct {
	Piece          job.Piece
	LengthMM       float64        // of its line, 0 if it has none
	Recipe         cluster.Recipe // as it will be built, after accepted substitutions
	Clusters       int
	Duplets        int
	Balloons       int // accents included
	Ties           int
	Accents        int // accent clusters
	AccentBalloons int
	By             []PieceBalloons // by size, then colour
	Sections       []Section
	StandIns       []StandIn // clusters of colours that lack a size of the recipe
	Working        []Line
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

// StandIn is how the clusters of one colour are built when it cannot be had in a size of the recipe.
type StandIn struct {
	Colour    job.Colour
	Recipe    cluster.Recipe
	Clusters  int
	ClosesPct float64 // of the difference in size, 0 to 100
	Accent    bool    // among the accents, not in the base
}

// Section is a length of base built and carried in one piece.
type Section struct {
	Number   int // from 1
	Clusters int
	LengthMM float64
}

// BalloonLine is one size and colour to buy.
type BalloonLine struct {
	Key    string // "pack/latex/11/coral"
	SizeIn int
	Colour job.Colour
	Need   int // in the pieces
	Spares int
	Buy    int // need + spares
	Pieces []PieceShare
}

// PieceShare is how many of a line one piece takes.
type PieceShare struct {
	Piece job.Piece
	ToIn  float64
	Count int
}

// Bag is what travels together.
type Bag struct {
	Key, Name string
	Lines     []PackLine
}

// PackLine is one thing to pack.
type PackLine struct {
	Key    string // also the entity whose register "have" says how many are packed
	Name   string
	Unit   string // "balloons", "bags", "" for single things
	Kit    bool   // comes home again
	Need   int    // 0: packed once, no longer needed
	Have   int
	Back   int // of kit: in the car again after take-down
	Reason string
	Colour *job.Colour
	SizeIn int
	Source Source
}

// More is how many are still to pack; negative when more are packed than needed.
func (l PackLine) More() int { return l.Need - l.Have }

// Out is how many have to come home again: what was packed, or was to be; 0 of what is used up.
func (l PackLine) Out() int {
	switch {
	case !l.Kit:
		return 0
	case l.Have > 0:
		return l.Have
	}
	return l.Need
}

// Place is where a card is done.
type Place string

// The places, in working order.
const (
	Home     Place = "home"
	Load     Place = "load"
	Site     Place = "site"
	TakeDown Place = "takedown"
)

// Card is one task.
type Card struct {
	Key       string // also the entity of its tick or tally: "card/make/door"
	Place     Place
	Title     string
	Piece     string // id of its piece, "" if of none
	Steps     []string
	Count     int    // how many to make; 0: a tick
	Unit      string // "clusters"
	Made      int
	Done      bool               // ticked, or all made
	Stood     string             // what it was ticked for, if it is open again because more is needed now; else ""
	HandsMin  int                // hands it needs at once
	HandsMax  int                // more get in each other's way
	Minutes   float64            // of one pair of hands of this crew, for all of it
	MinutesBy map[string]float64 // beginner, practised
	After     []string           // keys of cards that come before
	Waits     []string           // titles of those not done yet
	TakenBy   string
	Note      string
	Cautions  []Caution
	Priority  string // of its piece
	Beyond    int    // made though no longer needed
	Gone      bool   // worked on, but no longer in the plan
	Working   []Line
}

// Left is the person-minutes still to do.
func (c Card) Left() float64 {
	switch {
	case c.Done:
		return 0
	case c.Count > 0:
		return c.Minutes * float64(max(0, c.Count-c.Made)) / float64(c.Count)
	}
	return c.Minutes
}

// Caution is a warning shown where the hand is.
type Caution struct {
	Key  string // "choking", "latex", "helium", "ladder", "overhead", "wind", "eyes", "lifting", "bar", "exits", "heat"
	Text string
}

// Note is something the plan decided, asks or warns of.
type Note struct {
	Key     string // choice key: the decision is entity "choice/"+Key field "pick"; "" if there is nothing to decide
	Kind    string // substitute, warning, info
	Piece   string
	Text    string
	Options []Option
	Picked  string
}

// Option is one way to decide a note.
type Option struct{ Value, Label string }

// Window is the simple check of work against time.
type Window struct {
	Known    bool    // in and doors are both set
	Minutes  float64 // from let in to doors
	Work     float64 // person-minutes on site
	Hands    float64 // mean number of hands in the window
	Needs    float64 // minutes the site work takes with these hands
	Left     float64 // minutes of site work still to do with these hands
	Home     float64 // person-minutes at home and loading
	HomeLeft float64
	Verdict  string // fits, tight, short, unknown
	Reason   string // below the verdict
	Sentence string // both in one
	TakeDown float64
}
