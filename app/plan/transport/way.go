package transport

import (
	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
)

// Way is what the way in from the car takes one person, beside unloading at the door. Its minutes are there and back.
type Way struct {
	Each, Walk  float64 // things that go at once on the flat, and minutes; no minutes without a distance
	Trolley     bool    // they go on a trolley
	Arms, Climb float64 // things that go at once on stairs, and minutes; no minutes without stairs
	Lift, Ride  float64 // things that a lift takes, 0 without one, and minutes
}

// WayIn returns the way in of a job, by its brief and the figures that it takes.
func WayIn(d *count.Draft) (w Way) {
	b := &d.Job.Brief
	if b.CarryMM > 0 || b.Flights > 0 {
		w.Arms = d.Figures.Get("way/arms")
		w.Each = w.Arms
	}
	if b.CarryMM > 0 {
		w.Walk = float64(2*b.CarryMM) / 1000 / d.Figures.Get("way/speed") / 60
		if trolley := d.Figures.Get("way/trolley"); b.Trolley && trolley > w.Each {
			w.Each, w.Trolley = trolley, true
		}
	}
	if b.Flights > 0 {
		w.Climb = float64(float64(b.Flights) * d.Figures.Get("way/flight"))
	}
	if b.LiftBags > 0 {
		w.Lift, w.Ride = float64(b.LiftBags), d.Figures.Get("way/lift")
	}
	return w
}

// Minutes returns how long one person carries so many things, as a share of full walks and rides.
func (w Way) Minutes(things float64) float64 {
	minutes := 0.0
	if w.Arms > 0 {
		minutes += float64(w.Walk*things)/w.Each + float64(w.Climb*things)/w.Arms
	}
	if w.Lift > 0 {
		minutes += float64(w.Ride*things) / w.Lift
	}
	return minutes
}

// sectionThings is how many things a section counts as: two people carry it.
const sectionThings = 2

// ThingsIn returns how many bags and sections a load is.
func ThingsIn(d *count.Draft, load *Load) (things int) {
	for i := range load.Things {
		if t := &load.Things[i]; t.One == "section" {
			things += sectionThings * t.Count
		} else {
			things += max(1, figures.RoundUp(t.Litres/d.Figures.Get("bag/clusters")))
		}
	}
	return things
}

// carryMinutes returns how long one person carries in what is made of a piece at home. It does not depend on the cars.
func (w Way) carryMinutes(d *count.Draft, c *count.Counted) float64 {
	if c.InSections() {
		return w.Minutes(float64(sectionThings * len(c.Sections)))
	}
	return w.Minutes(d.HomeL(c) / d.Figures.Get("bag/clusters"))
}
