package count

import (
	"garlandry/app/job"
	"garlandry/calc/measure"
	"garlandry/calc/outline"
)

// registered has the kinds by name. Only the init functions of the kind_*.go files change it.
var registered = map[job.PieceKind]*Kind{}

// register adds a kind. It is for the init function of the kind's own file.
func register(k Kind) { registered[k.Name] = &k }

// Kinds returns every kind of piece in the order of [job.PieceKinds]. A new kind is one file like kind_column.go, which
// registers it, and one line in that list.
func Kinds() []*Kind {
	kinds := make([]*Kind, 0, len(registered))
	for _, listed := range job.PieceKinds() {
		if k, known := registered[job.PieceKind(listed.Value)]; known {
			kinds = append(kinds, k)
		}
	}
	return kinds
}

// Kind is one kind of piece: everything that forms, counts, cards and drawings need to know about it.
type Kind struct {
	Name  job.PieceKind
	Teach string // what it is, in one line

	// The form of a piece: names of fields in app/job.
	Measures []string                   // its measures
	Needed   []string                   // the measures that are required
	Build    []string                   // its materials
	More     []string                   // folded away at first
	ByLine   func(line string) []string // further measures, by its line; nil if there is no choice of lines
	Begin    Begin
	Starts   []Start // the pictures with which a new job begins one; none if it cannot
	Picture  Picture // where it has no starts
	Answers  []Answer

	Form Form // how it is put together, for its picture

	// Count counts the piece.
	Count func(*Draft, *Counted)

	// How it is built.
	AccentsBySpacing bool   // accents go on at the usual spacing unless their number is typed
	Covers           bool   // hides its background
	AirOnly          bool   // never floats, though its form asks for a gas
	StandsAlone      bool   // does not hang on a top bar
	NoTopBar         bool   // its frame has no top bar
	OnPole           bool   // stands on a foot that wind can push over
	Stand            string // the kind of kit it stands on where no frame carries it; "" for none
	Work             string // the kind of work of putting it up, see [figures.WorkKinds]
	PutUp            func(*Draft, *Counted) PutUp

	// Line returns its line if that is not straight; nil if it always is.
	Line func(job.Piece) (outline.Shape, bool)
}

// Form is how the balloons of a piece are put together.
type Form int

// The forms of pieces.
const (
	Heaped  Form = iota // one upon another
	Strung              // clusters along a line
	Stacked             // clusters round upright poles
	Strips              // clusters in upright strings side by side
	Bunched             // in bunches on ribbons from a weight
	Pressed             // into digits
)

// Begin is what a new piece of a kind starts with instead of the defaults of app/job.
type Begin struct {
	Name, Recipe, Gas string
	SizeIn            int
	Built             string // "site" for what few cars take ready made
}

// Start describes one picture that begins a piece of a kind. It asks for one size.
type Start struct {
	Key              string // of its picture and its input: "arch"
	Picture          Picture
	Label, Ask       string         // "Arch", "width x height"
	One, Many        string         // "arch"; Many, where the size is a number: "columns"
	Metric, Imperial string         // the usual size, as typed
	Fields           []string       // the measure, or a width and a height
	Most             int            // the largest number of pieces where the size is a number, else 0
	With             map[string]any // its other fields
	Feet             map[string]any // those of them that differ where lengths are in feet
}

// Picture is a small drawing on 72 by 48: a path, and balloons as x, y and radius.
type Picture struct {
	Lines    string
	Balloons []float64
}

// Usual returns the usual size in the reader's units, as typed.
func (s *Start) Usual(units measure.System) string {
	if units == measure.Imperial {
		return s.Imperial
	}
	return s.Metric
}

// Answer describes a calculator's length that can fill a measure of a piece.
type Answer struct {
	Calculator   string
	Field, Label string
	From         string // a number of the result or an input of the calculator
	Typed        bool   // From is an input
	Shape        string // prefix of the shapes it is for; "": any
}

// PutUp describes how a piece goes up on site.
type PutUp struct {
	Steps []string
	// How what carries it goes up and comes down. It is for pieces that nothing of the kit carries: the kit has cards
	// of its own.
	First, Last string
	Row         string   // of the time table, see [figures.Table]
	Times       float64  // how often the row counts
	Together    bool     // several people work on it at once
	Least       HandsFor // how many people at once
	Most        HandsFor
	Cautions    []string // their keys
}

// HandsFor is a number of people: the key of a figure.
type HandsFor string

// The numbers of people a card takes.
const (
	OneHand HandsFor = ""
	Pair    HandsFor = "hands/lift"
	Around  HandsFor = "hands/piece" // as many as fit round a piece
)

// KindOf finds a kind by its name. It reports false and returns an empty kind if there is none.
func KindOf(kinds []*Kind, name job.PieceKind) (*Kind, bool) {
	for _, k := range kinds {
		if k.Name == name {
			return k, true
		}
	}
	return &Kind{PutUp: setOut}, false
}

// setOut puts up bunches and whatever else needs no fixing.
func setOut(_ *Draft, c *Counted) PutUp {
	p := PutUp{
		Steps: []string{
			"Carry each " + c.Fix.One + " to its place, clear of lamps and candles.",
			"Check that each one stands or hangs by its own weight.",
		},
		Row: "set-out", Times: float64(c.Fix.Count), Most: Around, Cautions: []string{"choking", "exits"}}
	if c.Helium {
		p.Cautions = append(p.Cautions, "release")
	}
	return p
}

// fixBase puts up a base.
func fixBase(d *Draft, c *Counted) PutUp {
	first := "Two of you carry each section to its place. Start with the middle one."
	if len(c.Sections) < 2 {
		first = "Two of you carry the base to its place."
	}
	if len(c.Bases) > 1 {
		first += " Tie each base to the next with a 260 where they meet."
	}
	return PutUp{
		Steps: []string{first,
			"Tie a 260 round a few balloons and the frame or rail, every " +
				d.Length(d.Figures.Get("ties/fix-every")) + " and at both ends. Press some balloons between the bars.",
			"Turn and bend it until it looks right from the door. Then hide the ties.",
		},
		Row: "shape-foot", Times: c.feet(), Together: true, Least: Pair, Most: Around, Cautions: []string{"exits"}}
}

// feet returns the length of base in the piece, in feet.
func (c *Counted) feet() float64 { return c.LineMM / 304.8 }
