package plan

// carNotes says when what is made at home takes more than one trip.
func carNotes(d *draft) {
	known := false
	for _, k := range d.job.Kit {
		known = known || k.Kind == "car" && k.Litres > 0
	}
	trips, litres := d.trips()
	if trips < 2 {
		return
	}
	words := "a car of about " + number(roundTo(litres, 10)) + " litres (write yours into the kit)"
	if known {
		words = "your " + number(roundTo(litres, 10)) + " litres"
	}
	d.inform("", "What is made at home fills "+words+" "+count(trips, "time")+": drive more often, borrow a second car, or build more on site.")
}
