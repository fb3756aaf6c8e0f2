package measure

import (
	"math"
	"strings"
)

var timeUnits = []unit{
	{"s|sec|secs|second|seconds", 1.0 / 60, "time", ""},
	{"min|mins|minute|minutes|m", 1, "time", "s"},
	{"h|hr|hrs|hour|hours|:", 60, "time", "min"},
	{"d|day|days", 1440, "time", "h"},
}

var duration = quantity{want: "a time such as 90 min, 1h30 or 1.5 h", units: timeUnits, metric: "min",
	imperial: "min", max: 1e7, compound: true}

// ParseMinutes reads a duration in minutes, 0 to about 19 years: "1h30", "1:30", "90 min", "1.5 h", "2 days". A bare
// number means minutes.
func ParseMinutes(text string) (float64, error) {
	if strings.Count(text, ":") > 1 {
		return duration.refuse(text, "more than one colon")
	}
	return duration.read(text, Metric)
}

// FormatMinutes writes minutes to the nearest whole minute: "45 min", "2 h",
// "1 h 30 min".
func FormatMinutes(minutes float64) string {
	whole := math.Round(math.Abs(minutes))
	if math.IsNaN(whole) || math.IsInf(whole, 0) {
		return "? min"
	}
	sign := ""
	if minutes < 0 && whole > 0 {
		sign = "-"
	}
	hours := math.Floor(whole / 60)
	rest := whole - float64(hours*60)
	switch {
	case hours == 0:
		return sign + decimal(rest, 0) + " min"
	case rest == 0:
		return sign + decimal(hours, 0) + " h"
	}
	return sign + decimal(hours, 0) + " h " + decimal(rest, 0) + " min"
}
