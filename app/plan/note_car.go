package plan

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/task"
	"garlandry/calc/measure"
)

// carNotes says when what is made at home takes several trips or does not fit into the car.
func carNotes(d *draft) {
	known := false
	for _, k := range d.Job.Kit {
		known = known || k.Kind == "car" && k.Litres > 0
	}
	car := d.transport
	words := "a car of about " + phrase.Number(figures.RoundUpTo(car.Litres, 10)) + " litres (write yours into the kit)"
	if known {
		words = "your " + phrase.Number(figures.RoundUpTo(car.Litres, 10)) + " litres"
	}
	if car.Trips > 1 {
		away := task.TripMinutes(d.Rig)
		d.Inform("", "What you make at home fills "+words+" "+phrase.Count(car.Trips, "time")+
			". Drive again (one of you is away for about "+measure.FormatMinutes(away)+
			" each time), borrow a second car, or build more on site.")
	}
	last := ""
	for _, name := range car.BuiltOnSite {
		if name != last {
			d.Warn("", name+" does not fit into "+words+": build it on site.")
		}
		last = name
	}
}
