package plan

import (
	"cmp"

	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/task"
	"garlandry/app/plan/transport"
	"garlandry/calc/measure"
)

// carNotes says how many loads what is made at home takes, what the car does not take, and who drives.
func carNotes(d *draft) {
	car := &d.transport
	if len(car.Idle) > 0 {
		d.Warn("", phrase.And(car.Idle)+oneOr(len(car.Idle), " stays", " stay")+" at home: nobody is left to drive "+
			oneOr(len(car.Idle), "it", "them")+". Tick “Can drive” for one of the crew.")
	}
	later := car.Later()
	if len(later) > 0 {
		d.loadsNote(later)
	} else if len(car.Loads) > 0 || len(car.Moved) > 0 {
		d.unknownCarNote()
	}
	d.heavyLoadNote()
	for i := range car.Moved {
		d.movedNote(&car.Moved[i])
	}
	for i := range car.Brought {
		d.bringNote(&car.Brought[i])
	}
}

// unknownCarNote says how large a car is taken to be that the kit says nothing of.
func (d *draft) unknownCarNote() {
	for i := range d.transport.Cars {
		car := &d.transport.Cars[i]
		litres := phrase.Number(figures.RoundUpTo(car.Litres, 10)) + " litres"
		switch {
		case car.Known:
		case car.ID == "":
			d.Inform("", "No car in your kit: counted with one of "+litres+". Write yours into the kit.")
		default:
			d.Inform("", car.Name+": its litres are not in the kit, so "+litres+" are counted. Write them in.")
		}
	}
}

// heavyLoadNote warns about more foot weights than the cars may carry.
func (d *draft) heavyLoadNote() {
	n := 0
	for _, s := range d.Stands {
		n += s.Count * s.Weights
	}
	if n == 0 || !d.Travels() {
		return
	}
	all, cars := float64(float64(n)*d.Figures.Get("supply/foot-weight-kg")), len(d.transport.Cars)
	if most := float64(d.Figures.Get("car/payload-kg") * float64(cars)); all > most {
		d.Warn("", phrase.Count(n, "foot weight")+" of "+d.FootWeight()+" weigh "+d.heavy(all)+
			". Beside people "+oneOr(cars, "a car carries", "your cars carry")+" about "+d.heavy(most)+
			". Ask what the venue has, or fill containers with water there.")
	}
}

// heavy writes a load in tens of kilograms or pounds.
func (d *draft) heavy(kg float64) string {
	if d.Units == measure.Imperial {
		return phrase.Number(figures.RoundDownTo(kg*1000/measure.GramsPerPound, 10)) + " lb"
	}
	return phrase.Number(figures.RoundDownTo(kg, 10)) + " kg"
}

// bringNote compares fetching a piece in further loads with making it at the venue, and asks which it shall be.
func (d *draft) bringNote(m *transport.Moved) {
	words := m.Name + " made at home takes further loads. Made at the venue, all is ready sooner."
	if m.Rounds > 0 {
		words = m.Name + " made at home takes " + phrase.Count(m.Rounds, "further load") + ", about " +
			measure.FormatMinutes(m.Away) + ". Made at the venue, it takes all hands there about " +
			measure.FormatMinutes(m.There) + "."
	}
	key, options := transport.BringKey(m.Piece), transport.BringOptions()
	d.Note(count.Note{Key: key, Kind: "warning", Piece: m.Piece, Title: m.Name, Text: words, Options: options,
		Picked: cmp.Or(d.Picked(key, options), transport.PickVenue)})
}

// loadsNote says how many loads there are and how long somebody is away for each further one.
func (d *draft) loadsNote(later []*transport.Load) {
	car := &d.transport
	least, most := 0.0, 0.0
	for i := range d.cards {
		if c := &d.cards[i]; task.RefTo(c.Key).Family == task.FamilyTrip {
			if least == 0 || c.Minutes < least {
				least = c.Minutes
			}
			most = max(most, c.Minutes)
		}
	}
	away := "about " + measure.FormatMinutes(most)
	if measure.FormatMinutes(least) != measure.FormatMinutes(most) {
		away = measure.FormatMinutes(least) + " to " + measure.FormatMinutes(most)
	}
	words := "What you make at home fills " + d.carWords() + " " + phrase.Count(len(car.Loads), "time") + "."
	if len(car.Cars) > 1 {
		words = "What you make at home takes " + phrase.Count(len(car.Loads), "load") + " in " + d.carWords() + "."
	}
	d.Inform("", words+" Drive again (one of you is away for "+away+
		oneOr(len(later), "", " each time")+"), borrow another car, or build more on site.")
	switch drivers := car.Cars[later[0].Car].Drivers; {
	case transport.Marked(&d.Job) || len(d.Job.Crew) == 0:
	case len(drivers) == 1 && drivers[0] == "":
		d.Warn("", "Who drives? Tick “Can drive” for one of the crew. Until then nobody fetches another load.")
	default:
		d.Inform("", "Who drives? Tick “Can drive” for those who may fetch a load. Until then practised people do.")
	}
}

// oneOr returns the words for one thing, or for several.
func oneOr(n int, one, several string) string {
	if n == 1 {
		return one
	}
	return several
}

// carWords names the room in the cars: "your 800 litres".
func (d *draft) carWords() string {
	cars := d.transport.Cars
	if len(cars) == 1 && !cars[0].Known {
		return "a car of about " + phrase.Number(figures.RoundUpTo(cars[0].Litres, 10)) +
			" litres (write yours into the kit)"
	}
	var list []string
	for i := range cars {
		list = append(list, phrase.Number(figures.RoundUpTo(cars[i].Litres, 10)))
	}
	return "your " + phrase.And(list) + " litres"
}

// movedNote says why a piece is joined or made at the venue.
func (d *draft) movedNote(m *transport.Moved) {
	switch {
	case m.Saves && m.How == count.NotCarried:
		d.bringNote(m)
	case m.Saves:
		d.Warn(m.Piece, m.Name+" takes further loads in joined sections. Its clusters travel loose and are joined "+
			"at the venue, which takes less time.")
	case m.TooMany:
		d.Warn(m.Piece, m.Name+" takes more than "+phrase.Count(transport.MostLoads, "load")+" in "+d.carWords()+
			". It is planned to be made at the venue.")
	case m.How == count.InClusters:
		d.Warn(m.Piece, m.Name+" does not fit into "+d.carWords()+
			" in joined sections. Its clusters travel loose and are joined at the venue.")
	default:
		d.Warn(m.Piece, m.Name+" does not fit into "+d.carWords()+
			". It is planned to be made at the venue. With a larger car it could be made at home.")
	}
}
