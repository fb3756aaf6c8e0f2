package task

import (
	"strconv"
	"strings"

	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/transport"
)

// tripRule adds the cards for fetching what did not fit into the cars on their first drive, one for each drive. The
// first car of the kit has the keys "card/trip/2" and so on, another one "card/trip/van-2".
var tripRule = rule{
	family: FamilyTrip,
	place:  Site,
	title:  "Fetch another car load",
	cards: func(d *draft, r *rule) {
		if len(d.pack) == 0 {
			return
		}
		later := d.transport.Later()
		for _, load := range later {
			car := &d.transport.Cars[load.Car]
			c := r.card(d, tripID(car, load.Number), "")
			switch {
			case len(d.transport.Cars) > 1:
				c.Title = "Fetch load " + strconv.Itoa(load.Number) + " with " + car.Name
			case len(later) > 1:
				c.Title += ", trip " + strconv.Itoa(load.Number)
			}
			c.Steps = []string{"Bring " + load.Words() + ".",
				d.driverWords(car) + " drives back, loads and carries in. The others carry on with what is there.",
				"If the venue takes things the day before, drive then and tick this."}
			c.Cars, c.By = []string{car.ID}, car.Drivers
			c.takes(d.tripEffort(load))
			c.After = []Ref{FamilyUnload.Only()}
			if load.Number > 2 {
				c.After = append(c.After, tripRef(car, load.Number-1))
			}
			c.care(heat, lifting)
		}
	},
}

// tripID is the id of the card for a drive of a car.
func tripID(car *transport.Car, number int) string {
	if car.First {
		return strconv.Itoa(number)
	}
	return car.ID + "-" + strconv.Itoa(number)
}

func tripRef(car *transport.Car, number int) Ref { return FamilyTrip.Of(tripID(car, number)) }

// tripEffort returns the time of a drive back for a load: there and back, loading and carrying in.
func (d *draft) tripEffort(load *transport.Load) effort {
	drive, things := d.transport.Drive, transport.ThingsIn(d.Draft, load)
	e := d.handling(Load, things).plus(d.carryIn(things, 1))
	away := 2 * drive
	e.crew, e.beginner, e.practised = e.crew+away, e.beginner+away, e.practised+away
	e.lines = append(e.lines, figures.Line{What: "There and back", How: "2 x " + phrase.Number(drive) + " min",
		Result: phrase.Number(away) + " min", Source: d.driveSource()})
	return e
}

// driveSource says where the minutes of the drive come from.
func (d *draft) driveSource() figures.Source {
	if d.Job.Brief.DriveMin != nil {
		return figures.Source{Text: "your brief", Mark: figures.Measured}
	}
	return d.Figures.Row("clock/drive").Source
}

// arrivals refers to the cards of the later drives that bring anything of a piece.
func (d *draft) arrivals(p *count.Counted) (refs []Ref) {
	for _, load := range d.transport.Later() {
		if load.Brings(p.Piece.ID) {
			refs = append(refs, tripRef(&d.transport.Cars[load.Car], load.Number))
		}
	}
	return refs
}

// driverWords names who may drive a car: "Pia", "Pia or Otto", "One of you who can drive".
func (d *draft) driverWords(car *transport.Car) string {
	var names []string
	for i := range d.Job.Crew {
		for _, id := range car.Drivers {
			if m := &d.Job.Crew[i]; m.ID == id && m.Name != "" {
				names = append(names, m.Name)
			}
		}
	}
	if len(names) == 0 || len(names) > 3 {
		return "One of you who can drive"
	}
	return strings.Join(names, " or ")
}
