package plan

import "garlandry/app/plan/count"

// Float is how long the balloons of a piece with helium float.
type Float struct {
	Piece, Name string
	Hours       int   // whole hours from their filling, of those that sink first
	Gel         bool  // the hours are with drying gel, which is on the pack list
	Until       int64 // until when they are needed: minutes from the beginning of 1970, local, as if there were no zones
}

// floats lists the pieces whose balloons float. It is empty without a time of the doors.
func floats(d *count.Draft) (list []Float) {
	if d.Floating() == 0 {
		return nil
	}
	span := d.FloatSpan()
	for _, c := range d.Pieces {
		if !c.Helium || !span.Known {
			continue
		}
		least := Float{Piece: c.Piece.ID, Name: c.Piece.Name, Hours: -1, Until: span.Until.Unix() / 60}
		for _, b := range c.Own() {
			lift, known := d.Lift(b.SizeIn, b.ToIn)
			if !known || !(lift.NetG > 0) {
				continue
			}
			gel := span.SinksEarly(lift)
			if gel {
				lift.FloatHours *= d.Figures.Get("float/gel")
			}
			if hours := int(count.WholeHours(lift)); least.Hours < 0 || hours < least.Hours {
				least.Hours, least.Gel = hours, gel
			}
		}
		if least.Hours >= 0 {
			list = append(list, least)
		}
	}
	return list
}
