package device

import (
	"strconv"
	"strings"
)

// OffsetMinutes parses a zone's offset from UTC as browsers write it ("GMT", "GMT+1", "GMT-03:30", "GMT+00:44:30") into
// whole minutes east. It reports false for anything else, and beyond a day.
func OffsetMinutes(written string) (minutes int, ok bool) {
	rest, found := strings.CutPrefix(written, "GMT")
	if !found {
		rest, found = strings.CutPrefix(written, "UTC")
	}
	if !found || rest == "" {
		return 0, found
	}
	sign := 1
	switch {
	case strings.HasPrefix(rest, "+"):
		rest = rest[1:]
	case strings.HasPrefix(rest, "-"):
		sign, rest = -1, rest[1:]
	case strings.HasPrefix(rest, "\u2212"):
		sign, rest = -1, rest[len("\u2212"):]
	default:
		return 0, false
	}
	parts := strings.Split(rest, ":")
	if len(parts) > 3 {
		return 0, false
	}
	seconds, unit := 0, 3600
	for i, part := range parts {
		n, err := strconv.ParseUint(part, 10, 8)
		if err != nil || i > 0 && n > 59 {
			return 0, false
		}
		seconds += int(n) * unit
		unit /= 60
	}
	if seconds > 24*3600 {
		return 0, false
	}
	return sign * (seconds / 60), true
}
