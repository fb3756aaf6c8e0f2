package serve_test

import (
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// sweepPaths are addresses of every kind, with valid and with hostile ids.
var sweepPaths = []string{"/", "/new", "/away", "/import", "/calc", "/calc/clusters", "/calc/nothing", "/phone", "/j",
	"/j?as=owner", "/j/open", "/scan", "/shell", "/healthz", "/sw.js", "/manifest.webmanifest", "/a/x", "/jobs/reading",
	"/jobs/reading/next", "/jobs/reading/counts", "/jobs/reading/pack", "/jobs/reading/cards", "/jobs/reading/cards/load",
	"/jobs/reading/cards/%3Cb%3E%F0%9F%8E%88", "/jobs/reading/change/load", "/jobs/reading/history",
	"/jobs/reading/history?e=%00%ff", "/jobs/reading/do", "/jobs/reading/brief", "/jobs/reading/colours",
	"/jobs/reading/crew", "/jobs/reading/kit", "/jobs/reading/added", "/jobs/reading/figures", "/jobs/reading/pieces",
	"/jobs/reading/pieces/new", "/jobs/reading/pieces/%2e%2e%2f", "/jobs/reading/share", "/jobs/reading/share/new",
	"/jobs/reading/share/end", "/jobs/reading/share/keep", "/jobs/reading/share/drop", "/jobs/reading/export",
	"/jobs/reading/away", "/jobs/reading/back", "/jobs/%3Cscript%3E", "/jobs//", "//",
	"/jobs/reading/" + strings.Repeat("x/", 300), "/api/v1/me", "/api/v1/jobs/%00/sync", "/api/v1/jobs/reading/sync",
	"/api/v1/jobs/reading/own/sync"}

// sweepBodies are malformed bodies by content type.
var sweepBodies = []struct{ kind, body string }{
	{"", ""}, {"text/plain", "x"}, {formType, "%zz=%"}, {formType, strings.Repeat("a=1&", 20000)}, {formType, "=&=&&"},
	{
		formType,
		"act=%00&e=%ff%fe&n=-99999999999999999999&id=../../x&title=%3Cscript%3E&length_mm=1e999" +
			"&recipe=&units=%F0%9F%8E%88&reset=%00&colours=%00&crew=1e9&back=//evil.example",
	},
	{formType, "act=add&id=&name=" + strings.Repeat("%F0%9F%8E%88", 5000)},
	{
		jsonType,
		"{",
	}, {jsonType, `{"v":1,"d":"p","ops":[{"i":null,"v":{"a":[`}, {jsonType, strings.Repeat("[",
		50000)}, {"multipart/form-data; boundary=b", "--b\r\n"},
	{"multipart/form-data", "--\r\n"}, {"application/json; charset=\x7f", "{}"},
}

// TestNothingSentMakesTheServerFail checks that a bad request never gets a 5xx, at any address.
func TestNothingSentMakesTheServerFail(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	forger := s.stranger()
	cookie := *owner.cookie
	cookie.Value = strings.Repeat("x", 3000)
	forger.cookie = &cookie
	for who, p := range map[string]*phone{"owner": owner, "helper": helper, "stranger": s.stranger(),
		"forged cookie": forger} {
		for _, path := range sweepPaths {
			for _, method := range []string{"GET", "HEAD", "PUT", "PATCH", "DELETE", "OPTIONS"} {
				s.later(time.Second) // keeps rate limits out of this test
				got := p.send(p.request(method, path, nil))
				assert.Less(t, got.StatusCode, 500, "%s %s by %s: %.200s", method, path, who, got.body)
			}
			for _, b := range sweepBodies {
				s.later(3 * time.Second)
				r := p.request("POST", path, strings.NewReader(b.body))
				if b.kind != "" {
					r.Header["Content-Type"] = []string{strings.ReplaceAll(b.kind, "\x7f", "~")}
				}
				got := p.send(r)
				assert.Less(t, got.StatusCode, 500, "POST %s %.80s by %s: %.200s", path, b.body, who, got.body)
				assert.NotContains(t, got.Header.Get("Location"), "evil.example", path)
			}
		}
	}
	assert.NotContains(t, s.log.String(), "panic")
	assert.NotContains(t, s.log.String(), "level=ERROR")
}

// TestBadFieldsAreNamedAndEchoed checks that an impossible value gets a message at its field with the range or an
// example, and that the typed text stays.
func TestBadFieldsAreNamedAndEchoed(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	rows := []struct {
		name, path   string
		typed        url.Values
		field, value string
		says         []string
	}{
		{"negative length", "/jobs/reading/pieces/new",
			url.Values{"kind": {"garland"}, "name": {"Long"}, "length_mm": {"-3 m"}}, "length_mm", "-3 m", []string{"Length"}},
		{"10 km garland", "/jobs/reading/pieces/new",
			url.Values{"kind": {"garland"}, "name": {"Long"}, "length_mm": {"10 km"}}, "length_mm", "10 km", []string{"Length"}},
		{"a million clusters", "/jobs/reading/pieces/new",
			url.Values{"kind": {"bouquets"}, "name": {"Many"}, "count": {"1000000"}}, "count", "1000000", nil},
		{"unknown size", "/jobs/reading/pieces/new",
			url.Values{"kind": {"garland"}, "name": {"Odd"}, "length_mm": {"3 m"}, "recipe": {"2x13@10"}}, "recipe", "2x13@10",
			[]string{"13"}},
		{"hostile recipe", "/jobs/reading/pieces/new",
			url.Values{"kind": {"garland"}, "name": {"Odd"}, "length_mm": {"3 m"}, "recipe": {`"><script>x</script>`}},
			"recipe", `"><script>x</script>`, nil},
		{"doors before in", "/jobs/reading/brief",
			url.Values{"title": {"x"}, "in": {"2027-05-08T09:00"}, "doors": {"2027-05-08T08:00"}}, "doors", "2027-05-08T08:00",
			[]string{"doors"}},
		{"heat", "/jobs/reading/brief", url.Values{"title": {"x"}, "venue_c": {"4000"}}, "venue_c", "4000", nil},
		{"title too long", "/jobs/reading/brief", url.Values{"title": {strings.Repeat("🎈", 500)}}, "title",
			strings.Repeat("🎈", 500), []string{"120"}},
		{"first piece", "/new", url.Values{"title": {"x"}, "piece.garland": {"10 km"}}, "piece.garland", "10 km",
			[]string{"Garland"}},
		{"link without a name", "/jobs/reading/share/new", url.Values{"name": {""}, "role": {"helper"}, "ends": {"someday"}},
			"ends", "someday", nil},
	}
	before := s.standing()
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			got := owner.post(row.path, row.typed)
			assert.Equal(t, 422, got.StatusCode)
			doc := got.doc(t)
			input := doc.Find(`[name="` + row.field + `"]`)
			if assert.NotZero(t, input.Length(), "the field must be there") {
				shown := input.First().AttrOr("value", input.First().Text())
				assert.Equal(t, row.value, shown, "the typed text must stay")
				beside := input.First().Closest(".field").Find(".wrong").Text()
				assert.NotEmpty(t, beside, "the message must be beside the field: %s", doc.Find(".wrong, .alert").Text())
				for _, want := range row.says {
					assert.Contains(t, strings.ToLower(beside), strings.ToLower(want))
				}
			}
			assert.Zero(t, doc.Find("#page script").Length())
			assert.True(t, before == s.standing(), "something was written")
		})
	}
}
