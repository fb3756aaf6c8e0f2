package serve_test

import (
	"regexp"
	"strings"
	"testing"
	"time"

	ical "github.com/arran4/golang-ical"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestCalendarReadsBack(t *testing.T) {
	s := newSite(t)
	s.later(-30 * 24 * time.Hour)
	owner := s.owner()
	got := owner.get("/jobs/reading/calendar.ics")
	require.Equal(t, 200, got.StatusCode)
	assert.Contains(t, got.Header.Get("Content-Type"), "text/calendar")
	for _, line := range strings.Split(strings.TrimSuffix(got.body, "\r\n"), "\r\n") {
		assert.LessOrEqual(t, len(line), 75, "RFC 5545 section 3.1: lines of at most 75 octets: %s", line)
		assert.NotContains(t, line, "\n")
	}
	cal, err := ical.ParseCalendar(strings.NewReader(got.body))
	require.NoError(t, err)
	type span struct{ from, to string }
	events := map[string]span{}
	for _, e := range cal.Events() {
		from, err := e.GetStartAt()
		require.NoError(t, err)
		to, err := e.GetEndAt()
		require.NoError(t, err)
		assert.True(t, to.After(from), e.Id())
		require.NotNil(t, e.GetProperty(ical.ComponentPropertyDtstamp), "RFC 5545 section 3.6.1 requires it")
		events[strings.TrimSuffix(strings.TrimPrefix(e.Id(), "reading-"), "@garlandry")] = span{from.UTC().Format("02 15:04"),
			to.UTC().Format("02 15:04")}
		assert.NotContains(t,
			e.Serialize(&ical.SerializationConfiguration{MaxLength: 75, PropertyMaxLength: 75, NewLine: "\r\n"}), clientName)
	}
	// Lisbon has summer time in May: UTC+1.
	assert.Equal(t, span{"08 06:00", "08 10:30"}, events["site"], "let in at 7, doors at half past 11")
	assert.Equal(t, "08 06:00", events["drive"].to)
	assert.Equal(t, "08 17:00", events["down"].from)
	assert.Equal(t, "06 17:30", events["evening-2027-05-06"].from, "two evenings are enough: the latest two")
	assert.GreaterOrEqual(t, len(events), 5)
	assert.NotContains(t, events, "evening-2027-05-05")
}

func TestCalendarIsTheOwners(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	assert.Equal(t, 404, helper.get("/jobs/reading/calendar.ics").StatusCode)
	assert.Equal(t, 401, s.stranger().get("/jobs/reading/calendar.ics").StatusCode)
	assert.Equal(t, 404, owner.get("/jobs/nowhere/calendar.ics").StatusCode)
}

// TestTheCalendarBypassesTheServiceWorker checks that on an installed phone the calendar and other server-only
// addresses bypass the core and the service worker, and that the job's pages do not.
func TestTheCalendarBypassesTheServiceWorker(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	link := owner.get("/jobs/reading/clock").doc(t).Find(`a[href="/jobs/reading/calendar.ics"]`)
	require.Equal(t, 1, link.Length())
	_, marked := link.Attr("data-server")
	assert.True(t, marked, "main.js must leave the link to the browser")
	found := regexp.MustCompile(`(?m)^const serverOnly\w* = /(.*)/;$`).FindAllStringSubmatch(owner.get("/sw.js").body, -1)
	require.Len(t, found, 2)
	only := regexp.MustCompile(found[0][1] + "|" + found[1][1])
	for path, want := range map[string]bool{
		"/jobs/reading/calendar.ics": true, "/jobs/reading/share": true, "/jobs/reading/share/new": true,
		"/api/v1/me": true, "/j": true,
		"/jobs/reading": false, "/jobs/reading/clock": false, "/jobs": false, "/": false,
	} {
		assert.Equal(t, want, only.MatchString(path), path)
	}
}
