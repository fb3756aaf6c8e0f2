package forecast

import (
	"strconv"

	"garlandry/app/job"
)

// momentAt writes local minutes since the beginning of 1970 as a moment.
func momentAt(minutes int64) job.Moment {
	at := job.CalendarAt(minutes)
	text := []byte("0000-00-00T00:00")
	for _, part := range [...]struct{ value, end int }{{at.Year, 4}, {at.Month, 7}, {at.Day, 10}, {at.Hour, 13}, {at.Minute, 16}} {
		for value, i := part.value, part.end-1; value > 0 && i >= 0; value, i = value/10, i-1 {
			text[i] = byte('0' + value%10)
		}
	}
	return job.Moment(text)
}

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

// Tenths writes odds as a person says them, never better than they are: "9 in 10".
func Tenths(odds float64) string {
	switch tenths := int(float64(odds*10) + 1e-9); {
	case odds >= 0.995:
		return "as good as certain"
	case odds >= 0.95:
		return "better than 9 in 10"
	case tenths == 0:
		return "less than 1 in 10"
	default:
		return strconv.Itoa(tenths) + " in 10"
	}
}

// say gives the verdict and the sentence of a clock that has its odds.
func (c *Forecast) say() {
	doors := "; doors " + c.clock(c.Doors) + "."
	switch {
	case c.Now >= c.Doors:
		c.Verdict = "past"
		c.Sentence = c.past() + "left: done most likely at " + c.clock(c.Half) + ", with 9 in 10 odds at " + c.clock(
			c.Ninety,
		) + "."
	case c.Ninety > c.Doors+2*dayMinutes:
		c.Verdict = "late"
		c.Sentence = "It will not be done: there is more work than this crew has time for" + doors
	case c.Odds >= 0.9:
		c.Verdict = "sure"
		c.Sentence = "Done by " + c.clock(c.Ninety) + " with 9 in 10 odds" + doors
	case c.Odds >= 0.5:
		c.Verdict = "unsure"
		c.Sentence = "The odds of being done when the doors open are " + Tenths(c.Odds) + ", and 9 in 10 only at " + c.clock(
			c.Ninety,
		) + doors
	default:
		c.Verdict = "late"
		c.Sentence = "Not done in time: most likely at " + c.clock(c.Half) + ", with 9 in 10 odds at " + c.clock(
			c.Ninety,
		) + doors
	}
}
