package plan

import "garlandry/app/job"

// smallestFloatIn is the nominal size below which helium hardly floats a balloon. Common practice, no source.
const smallestFloatIn = 9

// heliumNotes warns of balloons that will not float, or not long enough, and says where they are filled.
func heliumNotes(d *noteDraft) {
	for _, c := range d.pieces {
		if c.Piece.Gas == "helium" && !c.helium && c.Piece.Kind == job.Tables {
			d.inform(c.Piece.ID, c.Piece.Name+": counted with air, since only bouquets float here.")
		}
		if !c.helium || c.Balloons == 0 {
			continue
		}
		if c.Piece.Built == "home" {
			d.inform(
				c.Piece.ID,
				c.Piece.Name+": filled on site, because helium balloons are not driven about and their hours count from the filling.",
			)
		}
		d.floatNotes(c)
	}
}

func (d *noteDraft) floatNotes(c *counted) {
	stays, known := d.job.Brief.Doors.MinutesUntil(d.job.Brief.Down)
	said := map[int]bool{}
	for _, b := range c.By {
		lift, ok := d.lift(b.SizeIn, b.ToIn)
		if !ok || said[b.SizeIn] {
			continue
		}
		said[b.SizeIn] = true
		gel := " without gel"
		if lift.FloatMark == string(Measured) {
			gel = ""
		}
		switch {
		case !(lift.NetG > 0):
			d.warn(
				c.Piece.ID,
				c.Piece.Name+": "+inch(b.SizeIn)+" balloons sized to "+d.small(
					b.ToIn,
				)+" do not float: the helium lifts less than rubber and ribbon weigh. Take a larger size, or fill them further.",
			)
		case b.SizeIn < smallestFloatIn:
			d.warn(c.Piece.ID,
				c.Piece.Name+": "+inch(b.SizeIn)+" balloons hardly float, and not for long; helium wants 11-inch and larger.")
		case known && lift.FloatHours < stays/60:
			d.warn(
				c.Piece.ID,
				c.Piece.Name+": they float for about "+number(roundDownTo(lift.FloatHours, 1))+" hours, less than the "+number(
					roundTo(stays/60, 1),
				)+" hours until take-down. Use a drying gel inside, or larger balloons.",
			)
		default:
			d.inform(
				c.Piece.ID,
				c.Piece.Name+": they float for about "+number(
					roundDownTo(lift.FloatHours, 1),
				)+" hours"+gel+" ("+lift.FloatMark+"). Fill late.",
			)
		}
	}
}
