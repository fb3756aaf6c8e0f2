package count

import (
	"garlandry/app/job"
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

// Kind is one kind of piece: all that forms, counts, cards and drawings ask of it.
type Kind struct {
	Name  job.PieceKind
	Teach string // what it is, in one line

	// The form of a piece: fields by the names they have in app/job.
	Measures []string                   // that make it what it is
	Needed   []string                   // of the measures, those that may not be empty
	Build    []string                   // what it is built of
	More     []string                   // closed at first
	ByLine   func(line string) []string // further measures, by how its line runs; nil if it has no choice of lines
	Begin    Begin
	Start    *Start // how a new job begins with one; nil if it is not offered there
	Answers  []Answer

	// Count counts what the piece takes.
	Count func(*Draft, *Counted)

	// How it is built and put up.
	AccentsBySpacing bool   // accents go on at the usual spacing unless their number is typed
	Covers           bool   // hides all that is behind it
	AirOnly          bool   // stays on the ground though its form asks for a gas
	StandsAlone      bool   // its frame does not bear it on a top bar
	NoTopBar         bool   // its frame has no top bar
	OnPole           bool   // stands on a foot that wind can push over
	Work             string // the kind of work of putting it up, see [figures.WorkKinds]
	PutUp            func(*Draft, *Counted) PutUp

	// Line gives the line it follows if that is more than a straight one; nil if it never is.
	Line func(job.Piece) (outline.Shape, bool)
}

// Begin is what a new piece of a kind starts with, where the defaults of app/job do not fit.
type Begin struct {
	Name, Recipe string
	SizeIn       int
	ToIn         float64
}

// Start is how a new job begins with a piece of a kind, by one measure.
type Start struct {
	Label, Ask       string // "Garland", "how long"
	Metric, Imperial string // an example
	Keypad           string
	Field            string         // what the measure is
	With             map[string]any // what goes with it to begin with
}

// Answer is a length from a calculator that fills a measure of a piece.
type Answer struct {
	Calculator   string
	Field, Label string
	From         string // a number of the result, or what was typed into the calculator
	Typed        bool
	Shape        string // only for shapes that begin so; empty: any
}

// PutUp is how a piece goes up on site.
type PutUp struct {
	Steps    []string
	Row      string   // of the time table
	Times    float64  // so many of the row
	Together bool     // several hands work on it at once
	Least    HandsFor // how many work on it at once
	Most     HandsFor
	Cautions []string // their keys
}

// HandsFor says how many hands, by the table of hands.
type HandsFor string

// The hands a card takes.
const (
	OneHand HandsFor = ""
	Pair    HandsFor = "hands/lift"
	Around  HandsFor = "hands/piece" // as many as find room around a piece
)

// KindOf finds a kind by its name; an empty one if it is not there.
func KindOf(kinds []*Kind, name job.PieceKind) (*Kind, bool) {
	for _, k := range kinds {
		if k.Name == name {
			return k, true
		}
	}
	return &Kind{PutUp: setOut}, false
}

// setOut is how bunches and all that needs no fixing are put up.
func setOut(_ *Draft, c *Counted) PutUp {
	p := PutUp{
		Steps: []string{
			"Carry each " + c.Fix.One + " to its place, clear of lamps and candles.",
			"See that each stands or hangs by its own weight.",
		},
		Row: "set-out", Times: float64(c.Fix.Count), Most: Around, Cautions: []string{"choking", "exits"}}
	if c.Helium {
		p.Cautions = append(p.Cautions, "release")
	}
	return p
}

// fixBase is how a base is put up.
func fixBase(d *Draft, c *Counted) PutUp {
	first := "Carry each section in by two. Start with the middle one."
	if len(c.Sections) < 2 {
		first = "Carry the base in by two."
	}
	return PutUp{
		Steps: []string{first,
			"Tie a 260 round several balloons and round the frame or rail, every " +
				d.Length(d.Figures.Get("ties/fix-every")) + " and at both ends. Press some balloons between the bars.",
			"Turn and bend it until it looks right from the door, then hide the ties.",
		},
		Row: "shape-foot", Times: c.feet(), Together: true, Least: Pair, Most: Around, Cautions: []string{"exits"}}
}

// feet is the length of base in the piece, in feet.
func (c *Counted) feet() float64 { return c.LineMM / 304.8 }
