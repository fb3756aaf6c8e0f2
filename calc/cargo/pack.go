package cargo

import (
	"fmt"
	"math"
	"sort"

	"garlandry/calc/outline"
)

// Balls are loose clusters or balloons of one kind, taken for balls of that
// diameter.
type Balls struct {
	Name       string  `json:"name"`
	DiameterMM float64 `json:"diameter_mm"`
	Count      int     `json:"count"`
}

// Sections are garland sections of one kind: the length along the centre line
// and the thickness from side to side. (A girth measured round the garland with
// a tape is pi times the thickness.)
type Sections struct {
	Name     string  `json:"name"`
	LengthMM float64 `json:"length_mm"`
	AcrossMM float64 `json:"across_mm"`
	Count    int     `json:"count"`
}

// Load is what is to be carried. SqueezePct is how much thinner its things may
// be made to get them in, 0 to [LargestSqueeze]; [CommonSqueezePct] is usual.
type Load struct {
	Balls      []Balls    `json:"balls"`
	Sections   []Sections `json:"sections"`
	SqueezePct float64    `json:"squeeze_pct"`
}

// Reason says why something stays behind.
type Reason string

// The reasons, also to be shown to a person.
const (
	DoorTooNarrow  Reason = "too thick for the largest door opening"
	SpaceTooNarrow Reason = "too thick for the space"
)

// Refusal is a kind of thing that cannot go in at all.
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

// Share is how much of the car a kind of thing takes, after cutting.
type Share struct {
	Name    string  `json:"name"`
	Count   int     `json:"count"`
	PerTrip int     `json:"per_trip"` // if nothing else were loaded
	Litres  float64 `json:"litres"`   // of all of them, gaps included
}

// Answer is how the load goes into the space. Refused things are in no figure
// but Refused; cut sections count as their parts.
type Answer struct {
	Fits        bool      `json:"fits"`         // all of it, uncut, in one trip
	Trips       int       `json:"trips"`        // 0 for an empty load
	Litres      float64   `json:"litres"`       // of space taken, over all trips
	SpaceLitres float64   `json:"space_litres"` // of one trip
	LongestMM   float64   `json:"longest_mm"`   // longest section of the thickest kind that goes in; 0 without sections
	Shares      []Share   `json:"shares"`       // balls first, in the order given
	Cuts        []Cut     `json:"cuts"`
	Refused     []Refusal `json:"refused"`
}

// Pack works out how a load goes into a space and in how many trips. Bulky
// things (fewer than 20 to a trip) are loaded largest first and stay whole, the
// shares of different kinds adding up as if each had its part of the car to
// itself. Small loose things fill the litres that the others leave.
//
// A section that is too long is cut into equal parts: into the number, from the
// fewest to twice as many, that needs the fewest trips, and of these the fewest
// parts.
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
	answer := Answer{SpaceLitres: r.litres()}
	softness := 1 - load.SqueezePct/100
	for _, balls := range load.Balls {
		if reason := r.refuses(balls.DiameterMM * softness); reason != "" {
			answer.refuse(balls.Name, balls.Count, reason)
			continue
		}
		answer.add(r, balls.Name, balls.Count, r.ballsPerTrip(balls.DiameterMM), math.Inf(1))
	}
	thickest := 0.0
	for _, sections := range load.Sections {
		if reason := r.refuses(sections.AcrossMM * softness); reason != "" {
			answer.refuse(sections.Name, sections.Count, reason)
			continue
		}
		longest := answer.addSections(r, sections)
		if sections.Count > 0 && sections.AcrossMM > thickest {
			thickest, answer.LongestMM = sections.AcrossMM, longest
		}
	}
	answer.Trips = answer.trips()
	answer.Fits = answer.Trips <= 1 && len(answer.Cuts) == 0 && len(answer.Refused) == 0
	return answer, nil
}

func (l Load) check() error {
	if kinds := len(l.Balls) + len(l.Sections); kinds > MostKinds {
		return fmt.Errorf("%d kinds of thing: %w, at most %d", kinds, ErrCount, MostKinds)
	}
	if !(l.SqueezePct >= 0 && l.SqueezePct <= LargestSqueeze) {
		return fmt.Errorf("squeeze of %g %%: %w, 0 to %g %%", l.SqueezePct, ErrMeasure, LargestSqueeze)
	}
	for _, balls := range l.Balls {
		if err := checkMM(fmt.Sprintf("%q's diameter", balls.Name), balls.DiameterMM, SmallestMM, LargestMM); err != nil {
			return err
		}
		if err := checkCount(balls.Name, balls.Count); err != nil {
			return err
		}
	}
	for _, sections := range l.Sections {
		if err := checkMM(fmt.Sprintf("%q's thickness", sections.Name), sections.AcrossMM, SmallestMM, LargestMM); err != nil {
			return err
		}
		if err := checkMM(fmt.Sprintf("%q's length", sections.Name), sections.LengthMM, SmallestMM, LargestLengthMM); err != nil {
			return err
		}
		if err := checkCount(sections.Name, sections.Count); err != nil {
			return err
		}
	}
	return nil
}

func checkCount(name string, count int) error {
	if count < 0 || count > LargestCount {
		return fmt.Errorf("%d of %q: %w, 0 to %d", count, name, ErrCount, LargestCount)
	}
	return nil
}

// refuses is why a thing of that thickness does not go in, "" when it does.
func (r room) refuses(squeezedMM float64) Reason {
	switch {
	case !fits(squeezedMM, r.doorMM):
		return DoorTooNarrow
	case !fits(squeezedMM, r.narrowestMM()):
		return SpaceTooNarrow
	}
	return ""
}

func (a *Answer) refuse(name string, count int, reason Reason) {
	if count > 0 {
		a.Refused = append(a.Refused, Refusal{name, count, reason})
	}
}

// add takes a kind of thing into the answer; each takes its share of the space
// or, if that is less, its own litres.
func (a *Answer) add(r room, name string, count, perTrip int, ownLitres float64) {
	if count == 0 {
		return
	}
	litres := float64(count) * math.Min(r.litres()/float64(perTrip), ownLitres)
	a.Shares = append(a.Shares, Share{name, count, perTrip, litres})
	a.Litres += litres
}

// addSections cuts the sections if they are longer than the longest that goes
// in, and returns that. Sections thicker than the space but soft enough to be
// pressed in lie there at the space's own width.
func (a *Answer) addSections(r room, s Sections) (longestMM float64) {
	if s.Count == 0 {
		return 0
	}
	acrossMM := math.Min(s.AcrossMM, r.narrowestMM())
	longestMM = r.longestMM(acrossMM)
	count, partMM := s.Count, s.LengthMM
	if partMM > longestMM {
		parts := r.bestParts(s, acrossMM, longestMM)
		count, partMM = s.Count*parts, s.LengthMM/float64(parts)
		a.Cuts = append(a.Cuts, Cut{s.Name, s.Count, parts, partMM, s.LengthMM})
	}
	perTrip := max(1, r.sectionsPerTrip(partMM, acrossMM))
	a.add(r, s.Name, count, perTrip, acrossMM*acrossMM*partMM/mm3PerLitre)
	return longestMM
}

// bestParts is the number of equal parts, none longer than longest, that takes
// the fewest trips.
func (r room) bestParts(s Sections, acrossMM, longest float64) int {
	fewest := len(outline.Sections(s.LengthMM, longest))
	best, bestTrips := fewest, math.MaxInt
	for parts := fewest; parts <= min(2*fewest, fewest+mostExtraParts); parts++ {
		perTrip := max(1, r.sectionsPerTrip(s.LengthMM/float64(parts), acrossMM))
		if trips := (s.Count*parts + perTrip - 1) / perTrip; trips < bestTrips {
			best, bestTrips = parts, trips
		}
	}
	return best
}

// mostExtraParts bounds the search for a better cut.
const mostExtraParts = 8

// bulky is how many to a trip are few enough that each must be placed whole.
const bulky = 20

// trips loads bulky things by decreasing share, a new trip whenever the next no
// longer fits, and never goes back, because then more load never takes fewer
// trips (Murgolo 1988: next-fit packing is monotonic). The litres of everything
// must have their room too.
func (a *Answer) trips() int {
	whole := make([]Share, 0, len(a.Shares))
	for _, share := range a.Shares {
		if share.PerTrip < bulky {
			whole = append(whole, share)
		}
	}
	sort.SliceStable(whole, func(i, j int) bool { return whole[i].PerTrip < whole[j].PerTrip })
	trips, room := 0, 0.0
	for _, share := range whole {
		perTrip := float64(share.PerTrip)
		left := share.Count - min(share.Count, int(room*perTrip+wholeTolerance))
		if left == 0 {
			room -= float64(share.Count) / perTrip
			continue
		}
		trips += (left + share.PerTrip - 1) / share.PerTrip
		room = 1 - float64((left-1)%share.PerTrip+1)/perTrip
	}
	return max(trips, int(math.Ceil(a.Litres/a.SpaceLitres-wholeTolerance)))
}
