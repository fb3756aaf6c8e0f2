package count

import (
	"time"

	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/calc/latex"
)

// fillReserve is the share of time kept for filling, tying and setting out helium balloons, over the table's minutes
// for beginners. From memory, no source.
const fillReserve = 1.5

// HeliumLead returns how many minutes before the doors filling with helium begins: late, because balloons float from
// their filling. It leaves time to fill, to set out, for the last look, and to spare. It is 0 if nothing floats.
func (d *Draft) HeliumLead() float64 {
	if d.Floating() == 0 {
		return 0
	}
	work := float64(float64(d.Floating()) * d.Figures.Get("minutes/helium/beginner"))
	for _, c := range d.Pieces {
		if c.Helium {
			work += float64(float64(c.Fix.Count) * d.Figures.Get("minutes/set-out/beginner"))
		}
	}
	work = float64(fillReserve*work) + d.Figures.Get("minutes/tidy/beginner")
	return figures.RoundUpTo(work/float64(max(1, len(d.Site)))+d.Figures.Get("helium/spare-min"), 5)
}

// FloatSpan is when helium balloons have to float.
type FloatSpan struct {
	From, Until time.Time // local at the venue; only if Known
	Hours       float64   // between the two
	Known       bool      // the brief says when the doors open
	Early       bool      // the brief says until when, but that is before the doors, so it does not count
}

// FloatSpan returns from when to when balloons have to float: from [Draft.HeliumLead] before the doors until the brief
// says, or some hours after the doors.
func (d *Draft) FloatSpan() FloatSpan {
	lead, party := d.HeliumLead(), d.Figures.Get("helium/party")
	doors, known := d.Job.Brief.Doors.Time()
	if !known {
		return FloatSpan{Hours: lead/60 + party}
	}
	until, said := d.Job.Brief.Until.Time()
	early := said && until.Before(doors)
	if !said || early {
		until = doors.Add(time.Duration(party * float64(time.Hour)))
	}
	from := doors.Add(-time.Duration(lead) * time.Minute)
	return FloatSpan{from, until, until.Sub(from).Hours(), true, early}
}

// WholeHours returns the whole hours that a balloon surely floats.
func WholeHours(lift latex.Lift) float64 { return figures.RoundDownTo(lift.FloatHours, 1) }

// SinksEarly reports whether a balloon of the lift sinks while it is needed, though it floats.
func (s FloatSpan) SinksEarly(lift latex.Lift) bool {
	return lift.NetG > 0 && WholeHours(lift) < s.Hours
}

// ToGel returns how many floating balloons sink before they are not needed any more: those to put drying gel into.
func (d *Draft) ToGel() int { return d.Sum(d.GelIn) }

// GelIn is [Draft.ToGel] of one piece.
func (d *Draft) GelIn(c *Counted) (n int) {
	if !c.Helium {
		return 0
	}
	span := d.FloatSpan()
	for _, b := range c.By {
		if lift, known := d.Lift(b.SizeIn, b.ToIn); known && span.SinksEarly(lift) {
			n += b.Count
		}
	}
	return n
}

// ClockOf writes a time of the job's day as a clock shows it, with the weekday on any other day.
func (d *Draft) ClockOf(t time.Time) string {
	if doors, known := d.Job.Brief.Doors.Time(); known && job.MomentOf(doors)[:10] != job.MomentOf(t)[:10] {
		return t.Format("15:04 on Mon")
	}
	return t.Format("15:04")
}
