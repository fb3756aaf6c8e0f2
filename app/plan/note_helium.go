package plan

import (
	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
)

// smallestFloatIn is the nominal size below which helium hardly floats a balloon. Common practice, no source.
const smallestFloatIn = 9

// heliumNotes warns of balloons that will not float, or not long enough, and says where they are filled.
func heliumNotes(d *draft) {
	for _, c := range d.Pieces {
		if c.Piece.Gas == "helium" && !c.Helium && c.Kind.AirOnly {
			d.Inform(c.Piece.ID, c.Piece.Name+": counted with air, since only bouquets float here.")
		}
		if !c.Helium || c.Balloons == 0 {
			continue
		}
		if c.Piece.Built == "home" {
			d.Inform(
				c.Piece.ID,
				c.Piece.Name+": filled on site, because helium balloons are not driven about and their hours count from the "+
					"filling.",
			)
		}
		d.floatNotes(c)
	}
}

func (d *draft) floatNotes(c *count.Counted) {
	stays, known := d.Job.Brief.Doors.MinutesUntil(d.Job.Brief.Down)
	said := map[int]bool{}
	for _, b := range c.By {
		lift, ok := d.Lift(b.SizeIn, b.ToIn)
		if !ok || said[b.SizeIn] {
			continue
		}
		said[b.SizeIn] = true
		gel := " without gel"
		if lift.FloatMark == string(figures.Measured) {
			gel = ""
		}
		switch {
		case !(lift.NetG > 0):
			d.Warn(
				c.Piece.ID,
				c.Piece.Name+": "+phrase.Inch(b.SizeIn)+" balloons sized to "+d.Small(
					b.ToIn,
				)+" do not float: the helium lifts less than rubber and ribbon weigh. Take a larger size, or fill them further.",
			)
		case b.SizeIn < smallestFloatIn:
			d.Warn(c.Piece.ID,
				c.Piece.Name+": "+phrase.Inch(b.SizeIn)+" balloons hardly float, and not for long; helium wants 11-inch and "+
					"larger.")
		case known && lift.FloatHours < stays/60:
			d.Warn(
				c.Piece.ID,
				c.Piece.Name+": they float for about "+phrase.Number(figures.RoundDownTo(lift.FloatHours,
					1))+" hours, less than the "+phrase.Number(
					figures.RoundUpTo(stays/60, 1),
				)+" hours until take-down. Use a drying gel inside, or larger balloons.",
			)
		default:
			d.Inform(
				c.Piece.ID,
				c.Piece.Name+": they float for about "+phrase.Number(
					figures.RoundDownTo(lift.FloatHours, 1),
				)+" hours"+gel+" ("+lift.FloatMark+"). Fill late.",
			)
		}
	}
}
