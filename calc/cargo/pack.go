package cargo

import (
	"cmp"
	"math"
	"slices"

	"garlandry/calc/outline"
)

// Balls are loose balloons of one kind: whole balls of that diameter.
type Balls struct {
	Name       string  `json:"name"`
	DiameterMM float64 `json:"diameter_mm"`
	Count      int     `json:"count"`
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
// that thickness; with one they never need more.
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
	least   float64 // litres of one, squeezed
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
// balloons divided by the packing; their reach only decides whether they go in. Bulky things (more than a twentieth of
// a trip each) are loaded largest first and are not split between trips; soft ones are pressed thinner by the squeeze
// if one more then fits. Small things fill the remaining litres.
//
// A section that is too long is cut into the fewest equal parts that fit.
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
		if answer.takes(r, balls.Name, balls.Count, balls.DiameterMM*softness) {
			answer.add(balls.Name, balls.Count, r.litres()/float64(r.ballsPerTrip(balls.DiameterMM)), 1)
		}
	}
	for _, clusters := range load.Clusters {
		if answer.takes(r, clusters.Name, clusters.Count, clusters.ReachMM*softness) {
			answer.add(clusters.Name, clusters.Count, r.packedLitres(clusters.Filling, load.Packing), softness*softness)
		}
	}
	thickest := 0.0
	for _, sections := range load.Sections {
		if !answer.takes(r, sections.Name, sections.Count, sections.AcrossMM*softness) {
			continue
		}
		longest := answer.addSections(r, sections, load.Packing, softness*softness)
		if sections.AcrossMM > thickest {
			thickest, answer.LongestMM = sections.AcrossMM, longest
		}
	}
	answer.Trips = answer.trips()
	answer.Fits = answer.Trips <= 1 && len(answer.Cuts) == 0 && len(answer.Refused) == 0
	return answer, nil
}

// takes reports whether any of a kind of thing is to be loaded. It records a refusal if the thing is too thick.
func (a *Answer) takes(r room, name string, count int, squeezedMM float64) bool {
	reason := Reason("")
	switch {
	case count == 0:
		return false
	case !fits(squeezedMM, r.doorMM):
		reason = DoorTooNarrow
	case !fits(squeezedMM, r.narrowestMM()):
		reason = SpaceTooNarrow
	default:
		return true
	}
	a.Refused = append(a.Refused, Refusal{name, count, reason})
	return false
}

// add adds a kind of thing to the answer. One of them needs at most the whole space, and give of it when squeezed.
func (a *Answer) add(name string, count int, eachLitres, give float64) {
	eachLitres = math.Min(eachLitres, a.SpaceLitres)
	litres := float64(count) * eachLitres
	a.Shares = append(a.Shares, Share{name, count, whole(a.SpaceLitres / eachLitres), litres, eachLitres * give})
	a.Litres += litres
}

// addSections cuts the sections if they are longer than the longest that fits, and returns that length. Sections
// thicker than the space but soft enough to be pressed have the width of the space.
func (a *Answer) addSections(r room, s Sections, packing, give float64) (longestMM float64) {
	acrossMM := math.Min(s.AcrossMM, r.narrowestMM())
	longestMM = r.longestMM(acrossMM)
	parts := 1
	if s.LengthMM > longestMM {
		parts = len(outline.Sections(s.LengthMM, longestMM))
		a.Cuts = append(a.Cuts, Cut{s.Name, s.Count, parts, s.LengthMM / float64(parts), s.LengthMM})
	}
	litres := acrossMM * acrossMM * s.LengthMM / mm3PerLitre
	if s.Filling.AirL > 0 {
		litres = math.Min(litres, r.packedLitres(s.Filling, packing))
	}
	a.add(s.Name, s.Count*parts, litres/float64(parts), give)
	return longestMM
}

// bulky is the number per trip below which each thing must be placed whole.
const bulky = 20

// trips loads bulky things by decreasing share and starts a new trip when the next one does not fit. It never returns
// to an earlier trip, so that more load never needs fewer trips (Murgolo 1988: next-fit packing is monotonic). The
// litres of everything must fit too.
func (a *Answer) trips() int {
	large := make([]Share, 0, len(a.Shares))
	for _, share := range a.Shares {
		if share.PerTrip < bulky {
			large = append(large, share)
		}
	}
	slices.SortStableFunc(large, func(a, b Share) int { return cmp.Compare(b.least, a.least) })
	trips, room := 0, 0.0
	for _, share := range large {
		each := share.least / a.SpaceLitres
		perTrip := whole(1 / each)
		left := share.Count - min(share.Count, whole(room/each))
		if left == 0 {
			room -= float64(float64(share.Count) * each)
			continue
		}
		trips += (left + perTrip - 1) / perTrip
		room = 1 - float64(float64((left-1)%perTrip+1)*each)
	}
	return max(trips, int(math.Ceil(a.Litres/a.SpaceLitres-wholeTolerance)))
}
