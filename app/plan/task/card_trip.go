package task

import (
	"strconv"
	"strings"

	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/rigging"
)

// mostTripCards is how many further trips get a card each. The last card covers all that follow.
const mostTripCards = 4

// tripRule adds the cards for fetching what did not fit into the car on the first trip.
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
			c.Steps = []string{"One of you drives back, loads and carries in. The others carry on with what is there.",
				"If the venue takes things the day before, drive then and tick this."}
			if len(names) > 0 {
				c.Steps = append([]string{"Bring " + strings.Join(names, ", ") + "."}, c.Steps...)
			}
			e := d.effort(Site, "car", 2*times)
			away := float64(2 * drive * times)
			e.crew, e.beginner, e.practised = e.crew+away, e.beginner+away, e.practised+away
			e.lines = append(e.lines, figures.Line{What: "There and back",
				How:    phrase.Number(2*times) + " x " + phrase.Number(drive) + " min",
				Result: phrase.Number(away) + " min", Source: figures.Source{Mark: figures.FromMemory}})
			c.takes(e)
			c.After = []Ref{FamilyUnload.Only()}
			if trip > 2 {
				c.After = append(c.After, FamilyTrip.Of(strconv.Itoa(trip-1)))
			}
			c.care(heat, lifting)
		}
	},
}

// tripOf returns the trip that brings a piece made at home, 1 for everything else. Must-haves come first and all trips
// are equally full. A piece comes with the trip that takes its middle.
func (d *draft) tripOf(piece *count.Counted) int {
	trips := d.transport.Trips
	if trips < 2 || piece.OnSite {
		return 1
	}
	before, all := float64(d.BulkL(piece)/2), d.BulkHomeL()
	mine, later := rank(piece.Piece.Priority), 0
	for _, p := range d.Pieces {
		if p == piece {
			later = 1 // of equal priority, those before it in the list go first
		} else if !p.OnSite && rank(p.Piece.Priority)+later <= mine {
			before += d.BulkL(p)
		}
	}
	if !(all > 0) {
		return 1
	}
	return min(1+int(before/all*float64(trips)), trips, 1+mostTripCards)
}

// rank orders priorities: must, should, could.
func rank(priority string) int {
	switch priority {
	case "should":
		return 1
	case "could":
		return 2
	}
	return 0
}

// TripMinutes returns how long one person is away to fetch another car load.
func TripMinutes(rig *rigging.Rig) float64 {
	d := &draft{Rig: rig}
	return float64(2*d.Figures.Get("clock/drive")) + d.effort(Site, "car", 2).crew
}
