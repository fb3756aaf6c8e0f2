package plan

// carNotes says when what is made at home takes more than one trip, or does not go in at all.
func carNotes(d *noteDraft) {
	known := false
	for _, k := range d.job.Kit {
		known = known || k.Kind == "car" && k.Litres > 0
	}
	h := d.haul
	words := "a car of about " + number(roundTo(h.litres, 10)) + " litres (write yours into the kit)"
	if known {
		words = "your " + number(roundTo(h.litres, 10)) + " litres"
	}
	if h.trips > 1 {
		away := TripMinutes(d.Rig)
		d.inform(
			"",
			"What is made at home fills "+words+" "+count(
				h.trips,
				"time",
			)+": drive more often, which takes one of you away for about "+number(
				away,
			)+" min each time, borrow a second car, or build more on site.",
		)
	}
	said := ""
	for _, name := range h.stays {
		if name != said {
			d.warn("", name+" is too thick for "+words+": build it on site.")
		}
		said = name
	}
}
