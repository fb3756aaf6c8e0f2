package serve_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"garlandry/app/job"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestNewJobsHaveATimeZone checks that a new job gets the time zone that the browser filled in, and that the next one
// starts with it.
func TestNewJobsHaveATimeZone(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	brief := func(zone string) job.Brief {
		got := owner.post("/new", url.Values{"title": {"Another reopening"}, "zone": {zone}})
		require.Equal(t, 303, got.StatusCode, got.body)
		shared, _, err := s.store.State(strings.TrimPrefix(got.Header.Get("Location"), "/jobs/"))
		require.NoError(t, err)
		return job.ReadBrief(shared)
	}
	assert.Equal(t, "Pacific/Auckland", brief("Pacific/Auckland").Zone)
	assert.Equal(t, "Pacific/Auckland", owner.get("/new").doc(t).Find(`input[name="zone"]`).AttrOr("value", ""))
	for _, zone := range []string{"", "Atlantis/Harbour", "Local", "../../etc/passwd", strings.Repeat("x", 5000),
		"<b>\x00"} {
		assert.Empty(t, brief(zone).Zone, "%.20q", zone)
	}
}

// TestServedTimesAreInTheJobsZone checks that times are in the job's zone on both sides of a clock change, and that
// without a zone they are labelled UTC. Europe's clocks go back on 31 October 2027 at 01:00 UTC (Directive 2000/84/EC,
// article 3).
func TestServedTimesAreInTheJobsZone(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	note := func(at time.Time, text string) {
		s.nowMS.Store(at.UnixMilli())
		require.Equal(t, 303,
			owner.post("/jobs/reading/do", url.Values{"act": {"note"}, "e": {"card/load"}, "text": {text}}).StatusCode)
	}
	// The job was made in May 2027 and nothing is stamped earlier, so this tests the change on 31 October.
	note(time.Date(2027, 10, 30, 12, 30, 0, 0, time.UTC), "before")
	note(time.Date(2027, 10, 31, 12, 30, 0, 0, time.UTC), "after")
	s.nowMS.Store(time.Date(2027, 11, 9, 12, 0, 0, 0, time.UTC).UnixMilli())
	for zone, want := range map[string][]string{
		"Europe/Lisbon":    {"Sat 30 Oct, 13:30", "Sun 31 Oct, 12:30"},
		"Pacific/Auckland": {"Sun 31 Oct, 01:30", "Mon 1 Nov, 01:30"},
		"":                 {"Sat 30 Oct, 12:30 UTC", "Sun 31 Oct, 12:30 UTC"},
	} {
		require.Equal(
			t,
			303,
			owner.post("/jobs/reading/brief",
				url.Values{"title": {"Reading room reopening"}, "zone": {zone}, "was.zone": {"?"}}).StatusCode,
			zone,
		)
		history := owner.get("/jobs/reading/history?e=card/load").body
		for _, text := range want {
			assert.Contains(t, history, text, zone)
		}
	}
	got := owner.post("/jobs/reading/brief", url.Values{"title": {"Reading room reopening"}, "zone": {"Atlantis/Harbour"}})
	assert.Equal(t, 422, got.StatusCode)
	assert.Contains(t, got.body, "Europe/Lisbon, or leave it empty")
	assert.Equal(t, "Atlantis/Harbour", got.doc(t).Find(`input[name="zone"]`).AttrOr("value", ""))
}

// TestTheLookIsOneCookie checks that the theme is stored only in a cookie, which the page's script can read and write.
func TestTheLookIsOneCookie(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	r := owner.request("POST", "/phone", strings.NewReader("act=theme&theme=sun"))
	r.Header.Set("Content-Type", formType)
	got := owner.send(r)
	require.Equal(t, 303, got.StatusCode)
	var look *http.Cookie
	for _, c := range got.Cookies() {
		if c.Name == "look" {
			look = c
		}
	}
	require.NotNil(t, look)
	assert.Equal(t, "sun", look.Value)
	assert.False(t, look.HttpOnly)
	assert.Equal(t, http.SameSiteStrictMode, look.SameSite)
	for value, want := range map[string]string{"sun": "sun", "dark": "dark", "": "", `x"><script>`: "", "neon": ""} {
		r := owner.request("GET", "/phone", nil)
		r.Header.Add("Cookie", "look="+value)
		assert.Equal(t, want, owner.send(r).doc(t).Find("html").AttrOr("data-theme", ""), value)
	}
}

// TestLinksEndWithADayAtTheJobsPlace checks that links end with a day in the job's zone, typed or three days after the
// event. The page shows only the day. The offsets are those of Europe/Lisbon in summer (WEST, UTC+1), Pacific/Auckland
// in May (NZST, UTC+12) and Pacific/Honolulu (HST, UTC-10).
func TestLinksEndWithADayAtTheJobsPlace(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	for zone, want := range map[string][2]time.Time{
		"Europe/Lisbon":    {time.Date(2027, 5, 20, 23, 0, 0, 0, time.UTC), time.Date(2027, 5, 11, 23, 0, 0, 0, time.UTC)},
		"Pacific/Auckland": {time.Date(2027, 5, 20, 12, 0, 0, 0, time.UTC), time.Date(2027, 5, 11, 12, 0, 0, 0, time.UTC)},
		"Pacific/Honolulu": {time.Date(2027, 5, 21, 10, 0, 0, 0, time.UTC), time.Date(2027, 5, 12, 10, 0, 0, 0, time.UTC)},
		"": {time.Date(2027, 5, 21, 12, 0, 0, 0, time.UTC), time.Date(2027, 5, 12, 12, 0, 0, 0,
			time.UTC)}, // UTC-12, the last zone to end a day
	} {
		require.Equal(
			t,
			303,
			owner.post("/jobs/reading/brief",
				url.Values{"title": {"Reading room reopening"}, "zone": {zone}, "was.zone": {"?"}}).StatusCode,
			zone,
		)
		for i, typed := range []string{"2027-05-20", ""} {
			name := "L" + strings.ReplaceAll(zone, "/", "") + typed
			owner.link(url.Values{"name": {name}, "role": {"helper"}, "ends": {typed}})
			links, err := s.store.Links("reading")
			require.NoError(t, err)
			for _, l := range links {
				if l.Name == name {
					assert.Equal(t, want[i], time.UnixMilli(l.Ends).UTC(), name)
				}
			}
			row := owner.get("/jobs/reading/share").
				doc(t).
				Find("#links li").
				FilterFunction(func(_ int, li *goquery.Selection) bool {
					return li.Find(".rowtitle").Text() == name
				}).
				Find(".soft").
				Text()
			assert.Contains(t, row, "until the end of "+[]string{"Thu 20 May", "Tue 11 May"}[i], name)
			assert.NotContains(t, row, ":", name)
		}
	}
}
