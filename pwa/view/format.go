package view

import (
	"strconv"
	"strings"
	"time"

	"garlandry/app/job"
)

// Ago says how long before now a moment was, in words: "just now", "2 min ago", "3 h ago", "yesterday", "5 days ago".
// Moments ahead of now, from a clock that is off, count as just now.
func Ago(now, then int64) string {
	minutes := (now - then) / 60000
	switch {
	case minutes < 1:
		return "just now"
	case minutes < 60:
		return strconv.FormatInt(minutes, 10) + " min ago"
	case minutes < 24*60:
		return strconv.FormatInt(minutes/60, 10) + " h ago"
	case minutes < 48*60:
		return "yesterday"
	}
	return strconv.FormatInt(minutes/(24*60), 10) + " days ago"
}

// Many writes a number with its noun: "1 tick", "3 ticks". The plural adds an s.
func Many(n int, noun string) string {
	return strconv.Itoa(n) + " " + plural(n, noun)
}

// changesOrTicks writes how many changes there are, as ticks if all of them are: "3 ticks", "2 changes".
func changesOrTicks(changes, ticks int) string {
	if changes == ticks {
		return Many(ticks, "tick")
	}
	return Many(changes, "change")
}

// plural gives the form of a word that goes with a number: plural(2, "tick") is "ticks", plural(2, "needs", "need") is
// "need". Many is the word with an s unless it is given.
func plural(n int, one string, many ...string) string {
	switch {
	case n == 1 || n == -1:
		return one
	case len(many) > 0:
		return many[0]
	}
	return one + "s"
}

func dayWords(t time.Time) string {
	return t.Format("Mon 2 Jan")
}

func clockWords(t time.Time) string { return t.Format("15:04") }

// Day writes a date as a person says it, without its year: "Sat 8 May"; as it stands if it cannot be read.
func Day(date string) string {
	t, ok := job.ParseMoment(date + "T00:00")
	if !ok {
		return date
	}
	return dayWords(t)
}

// TitleDay writes a day as the titles of new jobs end with it, "8 May"; empty if it is not known.
func TitleDay(date string) string {
	t, ok := job.ParseMoment(date + "T00:00")
	if !ok {
		return ""
	}
	return t.Format("2 January")
}

// Clock writes the time of day of a moment, "11:00"; empty if it is not known.
func Clock(m job.Moment) string {
	t, ok := m.Time()
	if !ok {
		return ""
	}
	return clockWords(t)
}

// DayClock writes a moment with its day: "Sat 8 May, 11:00"; empty if it is not known.
func DayClock(m job.Moment) string {
	t, ok := m.Time()
	if !ok {
		return ""
	}
	return dayWords(t) + ", " + clockWords(t)
}

// SpanWords writes a time from and to: "Sat 8 May, 20:00–22:00".
func SpanWords(s job.Span) string { return DayClock(s.From) + "–" + DayClock(s.To) }

// Stamp writes a Unix time in milliseconds as a day and time in the frame's zone; UTC, named, if the zone is not known.
func (f Frame) Stamp(ms int64) string {
	offset, zoned, name := f.Offset, f.Zoned, ""
	if f.Local != nil {
		offset, zoned = f.Local(ms)
	}
	if !zoned {
		offset, name = 0, " UTC"
	}
	t := time.Unix(60*(ms/60_000+int64(offset)), 0).UTC()
	return dayWords(t) + ", " + clockWords(t) + name
}

// capital begins a text with a capital letter.
func capital(text string) string {
	if text == "" {
		return ""
	}
	first := []rune(text)[:1]
	return strings.ToUpper(string(first)) + text[len(string(first)):]
}

// inches writes a size: "11-inch".
func inches(size int) string { return strconv.Itoa(size) + "-inch" }

// figure writes a number with as many digits as it needs, at most places after the point.
func figure(x float64, places int) string {
	s := strconv.FormatFloat(x, 'f', places, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// minutes writes a time as a person says it: "45 min", "1 h 30 min"; to the whole minute, at least one if there is any.
func minutes(m float64) string {
	whole := int(m + 0.5)
	if m > 0 && whole == 0 {
		whole = 1
	}
	if whole < 60 {
		return strconv.Itoa(whole) + " min"
	}
	if whole%60 == 0 {
		return strconv.Itoa(whole/60) + " h"
	}
	return strconv.Itoa(whole/60) + " h " + strconv.Itoa(whole%60) + " min"
}

// domID makes an id for an element from a key: letters, digits, dashes; "pack/latex/11/coral" gives
// "row-pack-latex-11-coral". Different keys of one plan give different ids.
func domID(prefix, key string) string {
	var b strings.Builder
	b.WriteString(prefix)
	b.WriteByte('-')
	for _, r := range key {
		switch {
		case r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-':
			b.WriteRune(r)
		case r == '/':
			b.WriteByte('-')
		default:
			b.WriteByte('_')
			b.WriteString(strconv.FormatInt(int64(r), 16))
		}
	}
	return b.String()
}

// number writes a whole number with a thin space between thousands: "1 250" with U+202F.
func number(n int) string {
	s := strconv.Itoa(n)
	sign := ""
	if n < 0 {
		sign, s = "-", s[1:]
	}
	if len(s) < 5 {
		return sign + s
	}
	var b strings.Builder
	for i, r := range s {
		if i > 0 && (len(s)-i)%3 == 0 {
			b.WriteRune('\u202f')
		}
		b.WriteRune(r)
	}
	return sign + b.String()
}
