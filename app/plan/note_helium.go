package plan

import (
	"time"

	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/calc/latex"
)

// smallestFloatIn is the nominal size below which helium hardly floats a balloon. Common practice, no source.
const smallestFloatIn = 9

// heliumNotes warns about balloons that do not float long enough and says where they are filled.
func heliumNotes(d *draft) {
	if d.Floating() > 0 {
		d.untilNote(d.FloatSpan())
	}
	for _, c := range d.Pieces {
		if c.Piece.Gas == "helium" && !c.Helium && c.Kind.AirOnly {
			d.Inform(c.Piece.ID, c.Piece.Name+": counted with air, because only bouquets float.")
		}
		if !c.Helium || c.Balloons == 0 {
			continue
		}
		if c.Piece.Built == "home" {
			d.Inform(c.Piece.ID, c.Piece.Name+": filled on site. Helium balloons do not travel, and their hours start when "+
				"you fill them.")
		}
		d.floatNotes(c)
	}
}

// untilNote says that a moment in the brief until which helium is needed does not count, as it is before the doors.
func (d *draft) untilNote(span count.FloatSpan) {
	if !span.Early {
		return
	}
	until, _ := d.Job.Brief.Until.Time()
	d.Warn("", "By the brief helium is needed until "+d.ClockOf(until)+", which is before the doors. Counted until "+
		d.ClockOf(span.Until)+" instead.")
}

func (d *draft) floatNotes(c *count.Counted) {
	span := d.FloatSpan()
	done := map[int]bool{}
	for _, b := range c.Own() {
		lift, ok := d.Lift(b.SizeIn, b.ToIn)
		if !ok || done[b.SizeIn] {
			continue
		}
		done[b.SizeIn] = true
		switch {
		case !(lift.NetG > 0):
			d.Warn(c.Piece.ID, c.Piece.Name+": "+phrase.Inch(b.SizeIn)+" balloons sized to "+d.Small(b.ToIn)+
				" do not float: the helium lifts less than rubber and ribbon weigh. Use a larger size or fill them more.")
		case b.SizeIn < smallestFloatIn:
			d.Warn(c.Piece.ID,
				c.Piece.Name+": "+phrase.Inch(b.SizeIn)+" balloons barely float, and not for long. Use 11-inch or larger.")
		case span.SinksEarly(lift):
			d.Warn(c.Piece.ID, c.Piece.Name+": "+d.floats(lift, span, "; needed ")+". "+d.floatLonger(lift, span))
		default:
			d.Inform(c.Piece.ID, c.Piece.Name+": "+d.floats(lift, span, "; enough, needed ")+". Fill them late.")
		}
	}
}

// floats says how long balloons float, from when to when if that is known, and how long they are needed.
func (d *draft) floats(lift latex.Lift, span count.FloatSpan, needed string) string {
	text := "they float for about " + phrase.Number(count.WholeHours(lift)) + " hours"
	if lift.FloatMark != string(figures.Measured) {
		text += " without gel"
	}
	text += " (" + lift.FloatMark + ")"
	if !span.Known {
		return text + needed + "for about " + phrase.Number(figures.RoundUpTo(span.Hours, 1)) + " hours"
	}
	sinks := span.From.Add(time.Duration(count.WholeHours(lift)) * time.Hour)
	return text + ": if filled at " + d.ClockOf(span.From) + ", until " + d.ClockOf(sinks) + needed + "until " +
		d.ClockOf(span.Until)
}

// floatLonger says what helps balloons that sink early. Gel is on the pack list.
func (d *draft) floatLonger(lift latex.Lift, span count.FloatSpan) string {
	if float64(lift.FloatHours*d.Figures.Get("float/gel")) < span.Hours {
		return "Even with drying gel they sink early: take larger balloons, or fill others later."
	}
	return "Put drying gel inside, which is on the pack list, or take larger balloons. Fill them as late as you can."
}
