package task

import (
	"math"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/packing"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/transport"
	"garlandry/calc/measure"
)

// firstThings returns how many boxes, frames and bags come with the first drives.
func (d *draft) firstThings() int {
	things := d.boxes(false)
	for i := range d.transport.Loads {
		if load := &d.transport.Loads[i]; load.Number == 1 {
			things += transport.ThingsIn(d.Draft, load)
		}
	}
	return things
}

// boxes counts what is carried of a pack list beside the bags that are filled at home: a bag or box each, what is too
// large for one, and two weights at once. It counts the kit alone for the way home.
func (d *draft) boxes(kit bool) int {
	things := 0
	for i := range d.pack {
		b := &d.pack[i]
		boxed := false
		for k := range b.Lines {
			l := &b.Lines[k]
			family, _, _ := strings.Cut(job.KeyPath(l.Key), "/")
			switch {
			case family == "made" || kit && !l.Kit || d.rolls(l):
			case strings.HasSuffix(l.Key, "/foot-weights"):
				things += (l.Need + 1) / 2
			case b.Key == "bag/frames" || b.Key == "bag/loose" || family == "helium" && l.Kit:
				things += max(1, large(l))
			default:
				boxed = true
			}
		}
		if boxed {
			things++
		}
	}
	return things
}

// rolls reports whether a line is the trolley that carries the others.
func (d *draft) rolls(l *packing.Line) bool {
	return d.Job.Brief.Trolley && strings.HasSuffix(l.Key, "/trolley")
}

// large returns how many things a line of large things is: each of the kit, else the line as one.
func large(l *packing.Line) int {
	if l.Kit && l.Unit == "" {
		return l.Need
	}
	return 1
}

// handling returns the time to load or unload so many things at the door: the table's for a usual car, more in
// proportion for more things.
func (d *draft) handling(place Place, things int) effort {
	usual := d.Figures.Get("way/load")
	e := d.effort(place, "car", max(1, float64(things)/usual))
	if float64(things) > usual {
		line := figures.Line{What: "Bags, boxes and frames", How: "a usual car has " + phrase.Number(usual),
			Result: phrase.Count(things, "thing"), Source: d.Figures.Row("way/load").Source}
		e.lines = append([]figures.Line{line}, e.lines...)
	}
	return e
}

// carryIn returns the time to unload so many things and carry them in, for at most so many people at once. Walks are
// there and back; a trolley takes several things, but not up stairs. A lift takes as long as its rides, however many
// people wait for it. Further, higher, a smaller lift and more things never take less.
func (d *draft) carryIn(things, people int) effort {
	lift := d.lift(things)
	e := d.handling(Site, things).plus(d.walk(things)).plus(d.stairs(things)).plus(lift)
	if wait := float64(lift.crew*float64(people)) - e.crew; wait > 0 {
		e = e.plus(spent("Waiting for the lift", phrase.Count(people, "person", "people")+" for as long as its rides",
			wait, figures.Arithmetic()))
	}
	return e
}

// spent is time that does not depend on who works.
func spent(what, how string, minutes float64, source figures.Source) effort {
	return effort{minutes, minutes, minutes,
		[]figures.Line{{What: what, How: how, Result: measure.FormatMinutes(minutes), Source: source}}}
}

// walks returns how often somebody goes if so many things go at once.
func walks(things int, each float64) float64 {
	return math.Ceil(float64(things) / math.Max(1, math.Floor(each)))
}

// walk returns the time on the flat, from the car and back.
func (d *draft) walk(things int) effort {
	way := transport.WayIn(d.Draft)
	if !(way.Walk > 0) {
		return effort{}
	}
	with := ""
	if way.Trolley {
		with = " with a trolley"
	}
	speed, n := d.Figures.Row("way/speed"), walks(things, way.Each)
	return spent("The way in", phrase.Count(things, "thing")+", "+phrase.Number(way.Each)+" at once"+with+": "+
		phrase.Number(n)+" x 2 x "+d.Length(d.Job.Brief.CarryMM)+" at "+phrase.Number(speed.Value)+" m/s",
		float64(n*way.Walk), speed.Source)
}

// stairs returns the time on the stairs, up and down.
func (d *draft) stairs(things int) effort {
	way := transport.WayIn(d.Draft)
	if !(way.Climb > 0) {
		return effort{}
	}
	flight, n := d.Figures.Row("way/flight"), walks(things, way.Arms)
	return spent("The stairs", phrase.Count(things, "thing")+": "+phrase.Number(n)+" x "+
		phrase.Count(d.Job.Brief.Flights, "flight")+" x "+phrase.Number(flight.Value)+" min", float64(n*way.Climb),
		flight.Source)
}

// lift returns the time of the rides.
func (d *draft) lift(things int) effort {
	way := transport.WayIn(d.Draft)
	if !(way.Lift > 0) {
		return effort{}
	}
	n := walks(things, way.Lift)
	return spent("The lift", phrase.Count(things, "thing")+", "+phrase.Number(way.Lift)+" at once: "+phrase.Number(n)+
		" x "+phrase.Number(way.Ride)+" min", float64(n*way.Ride), d.Figures.Row("way/lift").Source)
}
