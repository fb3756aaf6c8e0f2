package plan

import (
	"slices"

	"garlandry/app/plan/count"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/transport"
)

// builtNotes says which walls and columns are built at the venue although one car load takes all that would then be
// made at home.
func builtNotes(d *draft) {
	if !d.Travels() || d.transport.Rounds() > 1 || len(d.transport.Moved) > 0 { // then more does not fit either
		return
	}
	j, names := d.Job, ""
	j.Pieces = slices.Clone(j.Pieces)
	for i := range j.Pieces {
		p := &j.Pieces[i]
		kind, known := count.KindOf(d.Kinds(), p.Kind)
		if known && kind.Begin.Built == "site" && p.Built == "site" && p.Ahead == 0 {
			p.Built = "home"
			names = phrase.AppendName(names, p.Name)
		}
	}
	if names == "" {
		return
	}
	home := count.New(j, d.Kinds())
	if home.BulkHomeL() <= d.BulkHomeL() { // nothing is counted of them yet
		return
	}
	room := 0.0
	for _, c := range d.transport.Cars {
		room += c.Litres
	}
	if home.BulkHomeL() > room { // no need to plan the loads
		return
	}
	car := transport.New(home)
	if car.Rounds() > 1 || len(car.Moved) > 0 {
		return
	}
	d.Inform("", names+": built at the venue. Made at home, it all fits one car load and saves time there.")
}
