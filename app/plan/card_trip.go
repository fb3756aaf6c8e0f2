package plan

import (
	"strconv"
	"strings"

	"garlandry/calc/crew"
)

// mostTripCards is how many further trips have a card of their own; the last stands for all that follow.
const mostTripCards = 4

// tripRule is fetching what did not go into the car the first time.
var tripRule = cardRule{
	family: "trip",
	place:  Site,
	title:  "Fetch another car load",
	cards: func(d *cardDraft, r *cardRule) {
		trips, drive := d.haul.trips, d.figures.get("clock/drive")
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
			for _, p := range d.pieces {
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
				Line{"There and back", number(2*times) + " x " + number(drive) + " min", number(away) + " min",
					Source{Mark: FromMemory}},
			)
			c.takes(e)
			c.After = []string{"card/unload"}
			if trip > 2 {
				c.After = append(c.After, "card/trip/"+strconv.Itoa(trip-1))
			}
			c.care(heat, lifting)
		}
	},
}

// tripOf is the trip in which a piece that is made at home comes: what must be there first, all trips equally full; the
// piece goes where the middle of it does. 1 for all else.
func (d *cardDraft) tripOf(piece *counted) int {
	trips := d.haul.trips
	if trips < 2 || piece.where != Home {
		return 1
	}
	before, all := float64(d.bulkL(piece)/2), d.bulkHomeL()
	mine, later := priorityOf[piece.Piece.Priority], crew.Priority(0)
	for _, p := range d.pieces {
		if p == piece {
			later = 1 // of those alike the ones before it go first
		} else if p.where == Home && priorityOf[p.Piece.Priority]+later <= mine {
			before += d.bulkL(p)
		}
	}
	if !(all > 0) {
		return 1
	}
	return min(1+int(before/all*float64(trips)), trips, 1+mostTripCards)
}

// TripMinutes is how long one of the crew is away to fetch another car load.
func TripMinutes(rig *Rig) float64 {
	d := &cardDraft{Rig: rig}
	return float64(2*d.figures.get("clock/drive")) + d.effort(Site, "car", 2).crew
}
