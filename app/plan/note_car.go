package plan

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/task"
	"garlandry/calc/measure"
)

// carNotes says when what is made at home takes more than one trip, or does not go in at all.
func carNotes(d *draft) {
	known := false
	for _, k := range d.Job.Kit {
		known = known || k.Kind == "car" && k.Litres > 0
	}
	h := d.transport
	words := "a car of about " + phrase.Number(figures.RoundUpTo(h.Litres, 10)) + " litres (write yours into the kit)"
	if known {
		words = "your " + phrase.Number(figures.RoundUpTo(h.Litres, 10)) + " litres"
	}
	if h.Trips > 1 {
		away := task.TripMinutes(d.Rig)
		d.Inform(
			"",
			"What is made at home fills "+words+" "+phrase.Count(
				h.Trips,
				"time",
			)+": drive more often, which takes one of you away for about "+measure.FormatMinutes(away)+" each time, borrow a "+
				"second car, or build more on site.",
		)
	}
	said := ""
	for _, name := range h.BuiltOnSite {
		if name != said {
			d.Warn("", name+" is too thick for "+words+": build it on site.")
		}
		said = name
	}
}
