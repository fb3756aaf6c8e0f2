package cargo

import (
	"math"

	"garlandry/calc/outline"
)

// Balls are loose balloons of one kind. They go through a door by their diameter. A pear holds more than the sphere of
// its diameter: AirL is the air in one, and they pack as spheres of that air. 0, or less than the sphere, means a
// sphere.
type Balls struct {
	Name       string  `json:"name"`
	DiameterMM float64 `json:"diameter_mm"`
	Count      int     `json:"count"`
	AirL       float64 `json:"air_l,omitempty"`
}

// Clusters are loose clusters of one kind. They go through a door as balls of their reach, but they are soft and fill
// each other's gaps: they need the room of their balloons.
type Clusters struct {
	Name    string  `json:"name"`
	ReachMM float64 `json:"reach_mm"`
	Count   int     `json:"count"`
	Filling Filling `json:"filling"`
}

// Filling is the content of one cluster or section: the litres of air of its
// balloons and the diameter of its largest balloon.
type Filling struct {
	AirL      float64 `json:"air_l"`
	BalloonMM float64 `json:"balloon_mm"`
}

// Sections are garland sections of one kind: the length along the centre line and the thickness from side to side. (A
// girth measured around the garland with a tape is pi times the thickness.) Without a filling they need a square bar of
// that thickness; with one they need the room of their balloons.
type Sections struct {
	Name     string  `json:"name"`
	LengthMM float64 `json:"length_mm"`
	AcrossMM float64 `json:"across_mm"`
	Count    int     `json:"count"`
	Filling  Filling `json:"filling"`
}

// Load is everything to carry. SqueezePct says how much thinner its things may be pressed to get them in, 0 to
// [LargestSqueeze]; [CommonSqueezePct] is usual. Packing is the part of the space that the balloons of clusters and
// sections fill, [LeastPacking] to 1; 0 means [CommonPacking].
type Load struct {
	Balls      []Balls    `json:"balls"`
	Clusters   []Clusters `json:"clusters"`
	Sections   []Sections `json:"sections"`
	SqueezePct float64    `json:"squeeze_pct"`
	Packing    float64    `json:"packing"`
}

// Reason says why something cannot be loaded.
type Reason string

// These reasons may also be shown to a person.
const (
	DoorTooNarrow  Reason = "too thick for the largest door opening"
	SpaceTooNarrow Reason = "too thick for the space"
	SpaceTooSmall  Reason = "more air than the space holds"
)

// Refusal is a kind of thing that cannot go in.
type Refusal struct {
	Name   string `json:"name"`
	Count  int    `json:"count"`
	Reason Reason `json:"reason"`
}

// Cut is a kind of section that is too long and is carried in equal parts.
type Cut struct {
	Name     string  `json:"name"`
	Count    int     `json:"count"`     // sections to be cut
	Parts    int     `json:"parts"`     // parts of each
	PartMM   float64 `json:"part_mm"`   // length of a part
	LengthMM float64 `json:"length_mm"` // before it is cut
}

// Share is how much of the car a kind of thing needs, after cutting.
type Share struct {
	Name    string  `json:"name"`
	Count   int     `json:"count"`
	PerTrip int     `json:"per_trip"` // if nothing else were loaded
	Litres  float64 `json:"litres"`   // of all of them, gaps included
}

// Answer describes how the load fits the space. Refused things appear only in Refused; cut sections count as their
// parts.
type Answer struct {
	Fits        bool      `json:"fits"`         // all of it, uncut, in one trip
	Trips       int       `json:"trips"`        // 0 for an empty load
	Litres      float64   `json:"litres"`       // of space taken, over all trips
	SpaceLitres float64   `json:"space_litres"` // of one trip
	LongestMM   float64   `json:"longest_mm"`   // longest section of the thickest kind that goes in; 0 without sections
	Shares      []Share   `json:"shares"`       // balls, clusters, sections, each in the order given
	Cuts        []Cut     `json:"cuts"`
	Refused     []Refusal `json:"refused"`
}

// Pack computes how a load fits a space and how many trips it needs. Clusters and sections need the litres of their
// balloons divided by the packing; their reach, less the squeeze, only decides whether they go in. Every thing travels
// whole, in one trip, and no trip takes more litres than the space has (see [Carry]).
//
// A section that is too long, or holds more than the space, is cut into the fewest equal parts that fit. One that would
// be cut shorter than it is thick does not go in.
//
// Errors: ErrNoSpace, ErrMeasure and ErrCount, naming the input.
func Pack(space Space, load Load) (Answer, error) {
	r, err := space.room()
	if err != nil {
		return Answer{}, err
	}
	if err := load.check(); err != nil {
		return Answer{}, err
	}
	if load.Packing == 0 {
		load.Packing = CommonPacking
	}
	answer := Answer{SpaceLitres: r.litres()}
	softness := 1 - load.SqueezePct/100
	for _, balls := range load.Balls {
		each := r.ballLitres(balls.packedMM())
		if answer.takes(r, balls.Name, balls.Count, balls.DiameterMM*softness, each) {
			answer.add(balls.Name, balls.Count, each)
		}
	}
	for _, clusters := range load.Clusters {
		each := r.packedLitres(clusters.Filling, load.Packing)
		if answer.takes(r, clusters.Name, clusters.Count, clusters.ReachMM*softness, each) {
			answer.add(clusters.Name, clusters.Count, each)
		}
	}
	thickest := 0.0
	for _, sections := range load.Sections {
		if !answer.takes(r, sections.Name, sections.Count, sections.AcrossMM*softness, 0) {
			continue
		}
		longest, fit := answer.addSections(r, sections, load.Packing)
		if !fit {
			answer.Refused = append(answer.Refused, Refusal{sections.Name, sections.Count, SpaceTooSmall})
			continue
		}
		if sections.AcrossMM > thickest {
			thickest, answer.LongestMM = sections.AcrossMM, longest
		}
	}
	answer.Trips = answer.trips()
	answer.Fits = answer.Trips <= 1 && len(answer.Cuts) == 0 && len(answer.Refused) == 0
	return answer, nil
}

// Needs returns the litres that each thing of a load needs in a space: balls, clusters and sections, in the order
// given. It is 0 for a thing that does not go in whole.
func Needs(space Space, load Load) ([]float64, error) {
	var each []float64
	alone := func(one Load) error {
		one.SqueezePct, one.Packing = load.SqueezePct, load.Packing
		a, err := Pack(space, one)
		litres := 0.0
		if err == nil && len(a.Refused) == 0 && len(a.Cuts) == 0 {
			litres = a.Litres
		}
		each = append(each, litres)
		return err
	}
	for _, b := range load.Balls {
		b.Count = 1
		if err := alone(Load{Balls: []Balls{b}}); err != nil {
			return nil, err
		}
	}
	for _, c := range load.Clusters {
		c.Count = 1
		if err := alone(Load{Clusters: []Clusters{c}}); err != nil {
			return nil, err
		}
	}
	for _, s := range load.Sections {
		s.Count = 1
		if err := alone(Load{Sections: []Sections{s}}); err != nil {
			return nil, err
		}
	}
	return each, nil
}

// takes reports whether any of a kind of thing is to be loaded. It records a refusal if the thing is too thick or needs
// more litres than the space has.
func (a *Answer) takes(r room, name string, count int, squeezedMM, litres float64) bool {
	reason := Reason("")
	switch {
	case count == 0:
		return false
	case !fits(squeezedMM, r.doorMM):
		reason = DoorTooNarrow
	case !fits(squeezedMM, r.narrowestMM()):
		reason = SpaceTooNarrow
	case !fits(litres, a.SpaceLitres):
		reason = SpaceTooSmall
	default:
		return true
	}
	a.Refused = append(a.Refused, Refusal{name, count, reason})
	return false
}

// add adds a kind of thing to the answer.
func (a *Answer) add(name string, count int, eachLitres float64) {
	litres := float64(count) * eachLitres
	a.Shares = append(a.Shares, Share{name, count, whole(a.SpaceLitres / eachLitres), litres})
	a.Litres += litres
}

// addSections cuts the sections if they are longer than the longest that fits, and returns that length. It reports
// false if the space holds too little for a part as long as it is thick. Sections thicker than the space but soft
// enough to be pressed have the width of the space.
func (a *Answer) addSections(r room, s Sections, packing float64) (longestMM float64, fit bool) {
	acrossMM := math.Min(s.AcrossMM, r.narrowestMM())
	litres := acrossMM * acrossMM * s.LengthMM / mm3PerLitre
	if s.Filling.AirL > 0 {
		litres = r.packedLitres(s.Filling, packing)
	}
	longestMM = math.Min(r.longestMM(acrossMM), math.Floor(s.LengthMM*a.SpaceLitres/litres+wholeTolerance))
	parts := 1
	if s.LengthMM > longestMM {
		if longestMM < acrossMM {
			return 0, false
		}
		parts = len(outline.Sections(s.LengthMM, longestMM))
		a.Cuts = append(a.Cuts, Cut{s.Name, s.Count, parts, s.LengthMM / float64(parts), s.LengthMM})
	}
	a.add(s.Name, s.Count*parts, litres/float64(parts))
	return longestMM, true
}

// trips returns how often a car with the space drives.
func (a *Answer) trips() int {
	kinds := make([]Kind, len(a.Shares))
	for i := range a.Shares {
		share := &a.Shares[i]
		kinds[i] = Kind{Count: share.Count, Each: []float64{share.Litres / float64(share.Count)}}
	}
	return Rounds([]float64{a.SpaceLitres}, kinds)
}
