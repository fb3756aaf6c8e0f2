package task

import (
	"strconv"
	"strings"

	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/rigging"
)

// mostTripCards is how many further trips have a card of their own; the last stands for all that follow.
const mostTripCards = 4

// tripRule adds the cards for fetching what did not go into the car the first time.
var tripRule = rule{
	family: FamilyTrip,
	place:  Site,
	title:  "Fetch another car load",
	cards: func(d *draft, r *rule) {
		trips, drive := d.transport.Trips, d.Figures.Get("clock/drive")
		last := min(trips, 1+mostTripCards)
		for trip := 2; trip <= last && len(d.pack) > 0; trip++ {
			times := 1.0
			if trip == last {
				times += float64(trips - last)
			}
			c := r.card(d, strconv.Itoa(trip), "")
			if last > 2 {
				c.Title += ", trip " + strconv.Itoa(trip)
			}
			var names []string
			for _, p := range d.Pieces {
				if d.tripOf(p) == trip {
					names = append(names, p.Piece.Name)
				}
			}
			c.Steps = []string{"One drives back, loads and carries in; the others go on with what is there.",
				"If you may leave things at the venue the day before, drive then, and tick this."}
			if len(names) > 0 {
				c.Steps = append([]string{"It is for " + strings.Join(names, ", ") + "."}, c.Steps...)
			}
			e := d.effort(Site, "car", 2*times)
			away := float64(2 * drive * times)
			e.crew, e.beginner, e.practised = e.crew+away, e.beginner+away, e.practised+away
			e.lines = append(
				e.lines,
				figures.Line{What: "There and back", How: phrase.Number(2*times) + " x " + phrase.Number(drive) + " min",
					Result: phrase.Number(away) + " min",
					Source: figures.Source{Mark: figures.FromMemory}},
			)
			c.takes(e)
			c.After = []Ref{FamilyUnload.Only()}
			if trip > 2 {
				c.After = append(c.After, FamilyTrip.Of(strconv.Itoa(trip-1)))
			}
			c.care(heat, lifting)
		}
	},
}

// tripOf is the trip that brings a piece made at home. Must-haves come first and all trips are equally full; a piece
// travels with its middle. It is 1 for everything else.
func (d *draft) tripOf(piece *count.Counted) int {
	trips := d.transport.Trips
	if trips < 2 || piece.OnSite {
		return 1
	}
	before, all := float64(d.BulkL(piece)/2), d.BulkHomeL()
	mine, later := rank(piece.Piece.Priority), 0
	for _, p := range d.Pieces {
		if p == piece {
			later = 1 // of those alike the ones before it go first
		} else if !p.OnSite && rank(p.Piece.Priority)+later <= mine {
			before += d.BulkL(p)
		}
	}
	if !(all > 0) {
		return 1
	}
	return min(1+int(before/all*float64(trips)), trips, 1+mostTripCards)
}

// rank orders priorities: what must be there first, then what should, then what could.
func rank(priority string) int {
	switch priority {
	case "should":
		return 1
	case "could":
		return 2
	}
	return 0
}

// TripMinutes is how long one of the crew is away to fetch another car load.
func TripMinutes(rig *rigging.Rig) float64 {
	d := &draft{Rig: rig}
	return float64(2*d.Figures.Get("clock/drive")) + d.effort(Site, "car", 2).crew
}
