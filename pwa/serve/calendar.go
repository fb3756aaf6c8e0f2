package serve

import (
	"garlandry/app/forecast"
	"net/http"
	"strings"
	"time"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/task"
	"garlandry/calc/crew"

	ical "github.com/arran4/golang-ical"
	"github.com/labstack/echo/v4"
)

// calendarWait is the length in minutes of a take-down without a planned end. From memory, no source.
const calendarWait = 60

// calendar returns a job's times as iCalendar (RFC 5545): evenings at home, the drive, the time on site, the take-down.
// Times are in UTC if the job's zone is known, else local. Only the owner can open it.
func (s *Server) calendar(c echo.Context) error {
	session, _ := sessionOf(c)
	j, there := s.job(session, c.Param("job"))
	if !there {
		return errNotFound
	}
	p := s.plans.Plan(j, plan.DesignFingerprint(j))
	now := s.Now()
	offset, _ := zoneOffset(j.Brief.Zone, now.UnixMilli())
	ahead := int64(offset)
	text := jobCalendar(
		j,
		s.clocks.Forecast(j, &p, now.UnixMilli()/60_000+ahead, ahead, ""),
		now,
	).Serialize(ical.WithNewLineWindows)
	c.Response().Header().Set("Content-Disposition", `attachment; filename="garlandry.ics"`)
	return c.Blob(http.StatusOK, "text/calendar; charset=utf-8", []byte(text))
}

// jobCalendar returns an event for each time to keep free. A job without times has none.
func jobCalendar(j job.Job, c *forecast.Forecast, now time.Time) *ical.Calendar {
	cal := ical.NewCalendarFor("Garlandry")
	cal.SetXWRCalName(j.Brief.Title)
	zone, err := time.LoadLocation(j.Brief.Zone)
	if j.Brief.Zone == "" || j.Brief.Zone == "Local" {
		zone = nil
	}
	add := func(key, summary, place, about string, from, to int) {
		e := cal.AddEvent(j.ID + "-" + key + "@garlandry")
		e.SetDtStampTime(now)
		e.SetSummary(j.Brief.Title + ": " + summary)
		if place != "" {
			e.SetLocation(place)
		}
		if about != "" {
			e.SetDescription(about)
		}
		e.SetProperty(ical.ComponentPropertyDtStart, stamp(c.At(from), zone, err == nil))
		e.SetProperty(ical.ComponentPropertyDtEnd, stamp(c.At(to), zone, err == nil))
	}
	if c.In == 0 && c.Doors == 0 {
		return cal
	}
	evenings := 0
	for _, evening := range c.Evenings {
		from, to, cards := workOf(c, evening)
		if len(cards) > 0 {
			evenings++
			add("evening-"+string(c.At(evening.From)[:10]), "prep evening "+string(rune('0'+evenings)), "",
				strings.Join(cards, "\n"), from, to)
		}
	}
	if c.Drive > 0 {
		add("drive", "drive to the venue", "", "", c.In-c.Drive, c.In)
	}
	add("site", "on site, doors "+string(c.At(c.Doors)[11:]), j.Brief.Venue, c.Sentence, c.In, c.Doors)
	if down, known := j.Brief.Down.Time(); known {
		from := int(down.Unix()/60 - c.Origin)
		to := from
		for i := range c.Tasks {
			if c.Tasks[i].Place == task.TakeDown {
				to = max(to, c.Tasks[i].End)
			}
		}
		if to == from {
			to += calendarWait
		}
		add("down", "take-down", j.Brief.Venue, "", from, to)
	}
	return cal
}

// workOf returns when work begins and ends on an evening, and the titles of its cards, forty at most.
func workOf(c *forecast.Forecast, evening crew.Interval) (from, to int, cards []string) {
	from, to = evening.To, evening.From
	for _, t := range c.ByStart() {
		for _, spell := range t.Spells {
			if spell.From >= evening.From && spell.From < evening.To && len(cards) < 40 {
				from, to = min(from, spell.From), max(to, spell.To)
				if len(cards) == 0 || cards[len(cards)-1] != t.Title {
					cards = append(cards, t.Title)
				}
			}
		}
	}
	return from, to, cards
}

// stamp writes a moment for iCalendar: in UTC from a known zone, else as local time wherever the reader is.
func stamp(m job.Moment, zone *time.Location, known bool) string {
	if zone != nil && known {
		if t, err := time.ParseInLocation("2006-01-02T15:04", string(m), zone); err == nil {
			return t.UTC().Format("20060102T150405Z")
		}
	}
	return strings.NewReplacer("-", "", ":", "").Replace(string(m)) + "00"
}
