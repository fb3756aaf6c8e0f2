package forecast

import (
	"strconv"
	"time"

	"garlandry/app/job"
	"garlandry/calc/measure"
)

// momentAt writes local minutes since the beginning of 1970 as a moment.
func momentAt(minutes int64) job.Moment { return job.MomentOf(time.Unix(60*minutes, 0).UTC()) }

// clock writes the time of day of a minute, with the days it lies after the doors' day: "10:42", "01:10 the day after".
func (c *Forecast) clock(minute int) string {
	text := string(c.At(minute)[11:])
	switch days := minute/dayMinutes - c.Doors/dayMinutes; {
	case days == 1:
		text += " the day after"
	case days > 1:
		text += " " + strconv.Itoa(days) + " days later"
	}
	return text
}

// Percent writes odds in whole percent, rounded down: "90 %". Nothing is ever certain: the most is "99 %".
func Percent(odds float64) string {
	percent := int(float64(odds*100) + 1e-9)
	if percent < 1 {
		return "under 1 %"
	}
	return strconv.Itoa(min(percent, 99)) + " %"
}

// say gives the verdict and the sentence of a forecast that has its odds.
func (c *Forecast) say() {
	likely, safe, doors := c.clock(c.Half), c.clock(c.Ninety), c.clock(c.Doors)
	tight := "Tight: " + Percent(c.Odds) + " done by " + doors + ". Safe bet " + safe + "."
	switch {
	case c.Now >= c.Doors:
		c.Verdict, c.Sentence = "past", c.past()+"left. Likely done "+likely+", safe bet "+safe+"."
	case c.Ninety > c.Doors+2*dayMinutes:
		c.Verdict, c.Sentence = "late", "More work than this crew can do; doors "+doors+"."
	case c.Odds >= 0.9:
		c.Verdict, c.Sentence = "sure", "On time. Safe bet "+safe+", doors "+doors+"."
	case c.Odds >= 0.5:
		c.Verdict, c.Sentence = "unsure", tight
	case c.Half <= c.Doors:
		c.Verdict, c.Sentence = "late", tight
	default:
		c.Verdict = "late"
		c.Sentence = measure.FormatMinutes(float64(c.Half-c.Doors)) + " late. Likely done " + likely +
			", doors " + doors + "."
	}
}
