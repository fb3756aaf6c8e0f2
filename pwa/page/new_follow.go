package page

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"garlandry/calc/measure"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// A new job's day and times until somebody types others. Common practice, no source.
const (
	startDoors  = "15:00"
	accessHours = 4 // from access to doors
)

// startDate returns the next Saturday after today, where the visitor is.
func (r *request) startDate() string {
	minutes := 0
	if r.LocalMinutes != nil {
		minutes, _ = r.LocalMinutes(r.startZone(), r.Now)
	}
	today := time.UnixMilli(r.Now + int64(minutes)*60_000).UTC()
	days := (int(time.Saturday)-int(today.Weekday())+6)%7 + 1
	return today.AddDate(0, 0, days).Format(time.DateOnly)
}

// accessBefore returns the access for doors at a time of day, on the same day; "" if that cannot be read.
func accessBefore(doors string) string {
	at, err := time.Parse("15:04", strings.TrimSpace(doors))
	if err != nil {
		return ""
	}
	return at.Add(-min(accessHours*time.Hour, time.Duration(at.Hour())*time.Hour)).Format("15:04")
}

// follow returns a new job's form in which what nobody typed follows what somebody did: access follows the doors, and
// usual sizes follow the units.
func follow(typed form.Values, units measure.System) form.Values {
	v := typed.Clone()
	if rule := v.Get(view.StartAccess); rule != "" && v.Get("in") == rule {
		if access := accessBefore(v.Get("doors")); access != "" {
			v.Set("in", access)
			v.Set(view.StartAccess, access)
		}
	}
	for _, p := range view.StartPieces() {
		key := view.StartMeasure + p.Key
		switch text := strings.TrimSpace(v.Get(key)); {
		case untouched(&p, text):
			v.Set(key, p.Usual(units))
		case !slices.Contains(v[view.StartBuild], p.Key):
			v[view.StartBuild] = append(v[view.StartBuild], p.Key) // whoever types a size means the piece
		}
	}
	return v
}

// untouched reports whether a size is one that nobody typed.
func untouched(p *view.StartPiece, text string) bool {
	return text == "" || text == p.Metric || text == p.Imperial
}

// startTitle names a job by what is built and its day: "Garland and 2 columns, 12 June".
func startTitle(v form.Values) string {
	var parts []string
	for _, p := range view.StartPieces() {
		if !slices.Contains(v[view.StartBuild], p.Key) {
			continue
		}
		part := p.One
		if n, err := measure.ParseCount(v.Get(view.StartMeasure + p.Key)); err == nil && n > 1 && p.Most > 0 {
			part = strconv.Itoa(n) + " " + p.Many
		}
		parts = append(parts, part)
	}
	title := "Balloons"
	switch n := len(parts); {
	case n > 3:
		title = strings.Join(parts[:2], ", ") + " and more"
	case n > 1:
		title = strings.Join(parts[:n-1], ", ") + " and " + parts[n-1]
	case n == 1:
		title = parts[0]
	}
	title = capitalized(title)
	if day := view.TitleDay(strings.TrimSpace(v.Get("date"))); day != "" {
		title += ", " + day
	}
	return title
}
