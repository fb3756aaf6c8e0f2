package serve_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
)

// contentLine is a line of RFC 5545 section 3.1, unfolded: a name, parameters, a value.
type contentLine struct {
	name   string
	params []string
	value  string
}

// readCalendar parses a calendar by the grammar of RFC 5545 section 3.1 and returns its events. It does not use the
// library that wrote it.
func readCalendar(t *testing.T, text string) (head []contentLine, events [][]contentLine) {
	t.Helper()
	require.True(t, utf8.ValidString(text))
	require.True(t, strings.HasSuffix(text, "\r\n"), "every line ends with CRLF")
	require.NotRegexp(t, `[^\r]\n|\r[^\n]`, text, "section 3.1: lines are delimited by CRLF")
	for _, line := range strings.Split(strings.TrimSuffix(text, "\r\n"), "\r\n") {
		require.LessOrEqual(t, len(line), 75, "section 3.1: at most 75 octets: %q", line)
		require.True(t, utf8.ValidString(line), "a character must not be split: %q", line)
	}
	unfolded := strings.NewReplacer("\r\n ", "", "\r\n\t", "").Replace(text)
	form := regexp.MustCompile(`^([A-Z0-9-]+)((?:;[A-Z0-9-]+=(?:"[^"]*"|[^";:,]*)(?:,(?:"[^"]*"|[^";:,]*))*)*):(.*)$`)
	var open []string
	for _, raw := range strings.Split(strings.TrimSuffix(unfolded, "\r\n"), "\r\n") {
		found := form.FindStringSubmatch(raw)
		require.NotNil(t, found, "section 3.1: contentline: %q", raw)
		line := contentLine{found[1], strings.Split(strings.TrimPrefix(found[2], ";"), ";"), found[3]}
		switch {
		case line.name == "BEGIN":
			open = append(open, line.value)
			if line.value == "VEVENT" {
				events = append(events, nil)
			}
		case line.name == "END":
			require.Equal(t, open[len(open)-1], line.value)
			open = open[:len(open)-1]
		case open[len(open)-1] == "VEVENT":
			events[len(events)-1] = append(events[len(events)-1], line)
		default:
			require.Equal(t, []string{"VCALENDAR"}, open)
			head = append(head, line)
		}
	}
	require.Empty(t, open)
	return head, events
}

// unescaped decodes a TEXT value by section 3.3.11.
func unescaped(t *testing.T, value string) string {
	t.Helper()
	require.NotRegexp(t, `(^|[^\\])(\\\\)*[,;]`, value, "section 3.3.11: commas and semicolons are escaped")
	require.NotRegexp(t, `(^|[^\\])(\\\\)*\\[^\\;,nN]`, value, "no other character is escaped")
	return strings.NewReplacer(`\\`, `\`, `\;`, `;`, `\,`, `,`, `\n`, "\n", `\N`, "\n").Replace(value)
}

func TestCalendarByTheGrammar(t *testing.T) {
	s := newSite(t)
	s.later(-30 * 24 * time.Hour)
	owner := s.owner()
	title := `Fête d’été; „Straße“, 90 % \ ` + strings.Repeat("größer ", 8) + "🎈"
	venue := "Hall 2, door; left\\right"
	quoted := func(text string) string { return string(job.Put("", "", text).Value) }
	owner.exchange("reading", s.op(1, "brief", "title", quoted(title)), s.op(2, "brief", "venue", quoted(venue)))
	got := owner.get("/jobs/reading/calendar.ics").body
	head, events := readCalendar(t, got)
	count := func(lines []contentLine, name string) (n int) {
		for _, line := range lines {
			if line.name == name {
				n++
			}
		}
		return n
	}
	for _, name := range []string{"VERSION", "PRODID"} {
		assert.Equal(t, 1, count(head, name), "section 3.6: %s is required, once", name)
	}
	require.GreaterOrEqual(t, len(events), 4)
	var ids []string
	utc := regexp.MustCompile(`^\d{8}T\d{6}Z$`)
	for _, event := range events {
		for _, name := range []string{"UID", "DTSTAMP", "DTSTART", "DTEND", "SUMMARY"} {
			assert.Equal(t, 1, count(event, name), name)
		}
		assert.Zero(t, count(event, "DURATION"), "section 3.6.1: not together with DTEND")
		for _, line := range event {
			switch line.name {
			case "UID":
				ids = append(ids, line.value)
			case "DTSTAMP", "DTSTART", "DTEND":
				assert.Regexp(t, utc, line.value, "the zone is known: form 2 of section 3.3.5")
			case "SUMMARY":
				assert.True(t, strings.HasPrefix(unescaped(t, line.value), title+": "), line.value)
			case "LOCATION":
				assert.Equal(t, venue, unescaped(t, line.value))
			case "DESCRIPTION":
				unescaped(t, line.value)
			}
		}
	}
	assert.Equal(t, len(ids), len(slices.Compact(slices.Sorted(slices.Values(ids)))), "each UID must be unique")

	s.later(time.Hour)
	owner.exchange("reading", s.op(3, "brief", "doors", quoted("2027-05-08T12:00")))
	_, after := readCalendar(t, owner.get("/jobs/reading/calendar.ics").body)
	var again []string
	for _, event := range after {
		for _, line := range event {
			if line.name == "UID" {
				again = append(again, line.value)
			}
		}
	}
	assert.Equal(t, ids, again, "section 3.8.4.7: the UIDs must not change, so that a calendar replaces the events")
}
