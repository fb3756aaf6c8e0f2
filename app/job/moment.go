package job

// Moment is a local date and time at the venue, "2006-01-02T15:04", without a zone: the brief's time zone says where.
// It is empty when it is not known.
type Moment string

// ParseMoment reads a moment. The second result is false for an empty or unreadable text and for years outside 2000 to
// 2100.
func ParseMoment(text string) (Calendar, bool) {
	var c Calendar
	for _, part := range []struct {
		into   *int
		digits int
		ends   byte
	}{{&c.Year, 4, '-'}, {&c.Month, 2, '-'}, {&c.Day, 2, 'T'}, {&c.Hour, 2, ':'}, {&c.Minute, 2, 0}} {
		if len(text) < part.digits {
			return Calendar{}, false
		}
		for _, d := range []byte(text[:part.digits]) {
			if d < '0' || d > '9' {
				return Calendar{}, false
			}
			*part.into = *part.into*10 + int(d-'0')
		}
		text = text[part.digits:]
		if part.ends != 0 {
			if text == "" || text[0] != part.ends {
				return Calendar{}, false
			}
			text = text[1:]
		}
	}
	return c, text == "" && c.Year >= 2000 && c.Year <= 2100 && c.valid()
}

// Calendar gives the moment's parts. The second result is false if it is not known.
func (m Moment) Calendar() (Calendar, bool) { return ParseMoment(string(m)) }

// MinutesUntil gives the minutes from m to later, negative if later comes first. Clocks put forward or back between the
// two are not counted. The second result is false if either is not known.
func (m Moment) MinutesUntil(later Moment) (float64, bool) {
	from, ok := m.Calendar()
	to, ok2 := later.Calendar()
	if !ok || !ok2 {
		return 0, false
	}
	return float64(to.Minutes() - from.Minutes()), true
}
