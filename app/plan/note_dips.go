package plan

import "garlandry/calc/rig"

// dipNotes says how far each bench-tested bar dips under its load.
func dipNotes(d *draft) {
	for _, k := range d.Frames {
		s, known := d.Sag(k)
		switch {
		case !known:
		case s.Verdict == rig.VerdictHolds:
			d.Inform("", k.Name+": "+s.Words)
		default:
			d.Warn("", k.Name+": "+s.Words)
		}
	}
}
