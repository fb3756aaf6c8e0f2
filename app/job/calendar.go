package job

// Calendar is a date and time of day without a zone. Package time would bring its layouts and zones to the phone.
type Calendar struct {
	Year, Month, Day, Hour, Minute int
}

const (
	minutesPerDay = 24 * 60
	daysPerEra    = 146097 // in 400 years of the Gregorian calendar
	daysBefore    = 719468 // from 1 March of year 0 to 1 January 1970
)

// monthStarts are the days from 1 March to the first of each month, March first: leap days come last in such a year.
var monthStarts = [12]int64{0, 31, 61, 92, 122, 153, 184, 214, 245, 275, 306, 337}

// Minutes counts from the beginning of 1970, as if there were no zones and no changes of clocks.
func (c Calendar) Minutes() int64 {
	year, month := int64(c.Year), c.Month-3
	if month < 0 {
		year, month = year-1, month+12
	}
	era := floor(year, 400)
	inEra := year - era*400
	days := era*daysPerEra + inEra*365 + inEra/4 - inEra/100 + monthStarts[month] + int64(c.Day) - 1 - daysBefore
	return days*minutesPerDay + int64(c.Hour*60+c.Minute)
}

// CalendarAt gives the date and time that many minutes after the beginning of 1970.
func CalendarAt(minutes int64) Calendar {
	days := floor(minutes, minutesPerDay)
	rest := int(minutes - days*minutesPerDay)
	days += daysBefore
	era := floor(days, daysPerEra)
	inEra := days - era*daysPerEra
	yearInEra := (inEra - inEra/1460 + inEra/36524 - inEra/(daysPerEra-1)) / 365
	inYear := inEra - (yearInEra*365 + yearInEra/4 - yearInEra/100)
	month := 11
	for monthStarts[month] > inYear {
		month--
	}
	c := Calendar{Year: int(era*400 + yearInEra), Month: month + 3, Day: int(inYear-monthStarts[month]) + 1,
		Hour: rest / 60, Minute: rest % 60}
	if c.Month > 12 {
		c.Year, c.Month = c.Year+1, c.Month-12
	}
	return c
}

// Weekday is 0 for Sunday to 6 for Saturday.
func (c Calendar) Weekday() int {
	days := floor(c.Minutes(), minutesPerDay)
	const firstDay = 4 // 1 January 1970 was a Thursday
	return int(days + firstDay - 7*floor(days+firstDay, 7))
}

// valid reports whether there is such a date and time.
func (c Calendar) valid() bool {
	return c.Month >= 1 && c.Month <= 12 && c.Day >= 1 && c.Day <= 31 && c.Hour < 24 && c.Minute < 60 &&
		CalendarAt(c.Minutes()) == c
}

func floor(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}
