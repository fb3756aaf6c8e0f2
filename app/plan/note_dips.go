package plan

import "garlandry/calc/rig"

// dipNotes says what each bench-tested bar does under its load.
func dipNotes(d *noteDraft) {
	for _, k := range d.frames {
		s, known := d.sag(k)
		switch {
		case !known:
		case s.Verdict == rig.VerdictHolds:
			d.inform("", k.Name+": "+s.words)
		default:
			d.warn("", k.Name+": "+s.words)
		}
	}
}
