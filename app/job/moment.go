package job

import (
	"time"
)

// momentLayout is a local date and time at the venue, without a zone: the brief's time zone says where.
const momentLayout = "2006-01-02T15:04"

// Moment is a local date and time at the venue, "2006-01-02T15:04", or empty when it is not known.
type Moment string

// ParseMoment reads a moment. The second result is false for an empty or unreadable text and for years outside 2000 to
// 2100.
func ParseMoment(text string) (time.Time, bool) {
	t, err := time.Parse(momentLayout, text)
	if err != nil || t.Year() < 2000 || t.Year() > 2100 {
		return time.Time{}, false
	}
	return t, true
}

// Time gives the moment on a calendar without zones. The second result is false if it is not known.
func (m Moment) Time() (time.Time, bool) { return ParseMoment(string(m)) }

// MinutesUntil gives the minutes from m to later, negative if later comes first. Clocks put forward or back between the
// two are not counted. The second result is false if either is not known.
func (m Moment) MinutesUntil(later Moment) (float64, bool) {
	from, ok := m.Time()
	to, ok2 := later.Time()
	if !ok || !ok2 {
		return 0, false
	}
	return to.Sub(from).Minutes(), true
}
