package job

import "time"

// Moment is a local date and time at the venue, "2006-01-02T15:04". It has no zone: the brief names the time zone. It
// is empty if it is not known.
type Moment string

const momentLayout = "2006-01-02T15:04"

// MomentOf returns the date and time of t as shown in t's zone.
func MomentOf(t time.Time) Moment { return Moment(t.Format(momentLayout)) }

// ParseMoment reads a moment as a time in UTC, which has no daylight saving. The second result is false for an empty or
// unreadable text and for years outside 2000 to 2100.
func ParseMoment(text string) (time.Time, bool) {
	t, err := time.Parse(momentLayout, text)
	if err != nil || len(text) != len(momentLayout) || t.Year() < 2000 || t.Year() > 2100 {
		return time.Time{}, false
	}
	return t, true
}

// Time returns the moment as a time in UTC. The second result is false if the moment is not known.
func (m Moment) Time() (time.Time, bool) { return ParseMoment(string(m)) }

// MinutesUntil returns the minutes from m to later, negative if later comes first. It does not count clocks put forward
// or back between the two. The second result is false if either is not known.
func (m Moment) MinutesUntil(later Moment) (float64, bool) {
	from, ok := m.Time()
	to, ok2 := later.Time()
	if !ok || !ok2 {
		return 0, false
	}
	return to.Sub(from).Minutes(), true
}
