package plan

import (
	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
)

// smallestFloatIn is the nominal size below which helium hardly floats a balloon. Common practice, no source.
const smallestFloatIn = 9

// heliumNotes warns about balloons that do not float long enough and says where they are filled.
func heliumNotes(d *draft) {
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

func (d *draft) floatNotes(c *count.Counted) {
	upMinutes, known := d.Job.Brief.Doors.MinutesUntil(d.Job.Brief.Down)
	done := map[int]bool{}
	for _, b := range c.By {
		lift, ok := d.Lift(b.SizeIn, b.ToIn)
		if !ok || done[b.SizeIn] {
			continue
		}
		done[b.SizeIn] = true
		hours := phrase.Number(figures.RoundDownTo(lift.FloatHours, 1))
		gel := " without gel"
		if lift.FloatMark == string(figures.Measured) {
			gel = ""
		}
		switch {
		case !(lift.NetG > 0):
			d.Warn(c.Piece.ID, c.Piece.Name+": "+phrase.Inch(b.SizeIn)+" balloons sized to "+d.Small(b.ToIn)+
				" do not float: the helium lifts less than rubber and ribbon weigh. Use a larger size or fill them more.")
		case b.SizeIn < smallestFloatIn:
			d.Warn(c.Piece.ID,
				c.Piece.Name+": "+phrase.Inch(b.SizeIn)+" balloons barely float, and not for long. Use 11-inch or larger.")
		case known && lift.FloatHours < upMinutes/60:
			d.Warn(c.Piece.ID, c.Piece.Name+": they float for about "+hours+" hours, less than the "+
				phrase.Number(figures.RoundUpTo(upMinutes/60, 1))+" hours until take-down. Use a drying gel or larger balloons.")
		default:
			d.Inform(c.Piece.ID,
				c.Piece.Name+": they float for about "+hours+" hours"+gel+" ("+lift.FloatMark+"). Fill them late.")
		}
	}
}
