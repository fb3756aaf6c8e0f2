package serve_test

import (
	"crypto/sha256"
	"encoding/hex"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"garlandry/app/store"
	wire "garlandry/app/sync"
	"garlandry/pwa/serve"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// securityLines returns the page's lines, newest first.
func (p *phone) securityLines(query string) []string {
	got := p.get("/security" + query)
	require.Equal(p.t, 200, got.StatusCode, got.body)
	var lines []string
	got.doc(p.t).Find("#security li").Each(func(_ int, li *goquery.Selection) {
		lines = append(lines, strings.Join(strings.Fields(li.Text()), " "))
	})
	return lines
}

// logged is an event and the words expected in its line of the security log.
type logged struct {
	name string
	do   func()
	want []string
}

// joinsThatAreLogged lists links, joins and forbidden pages.
func joinsThatAreLogged(t *testing.T, s *site, owner *phone) []logged {
	t.Helper()
	return []logged{
		{"a link is made", func() { owner.link(url.Values{"name": {"Bea"}, "role": {"helper"}}) },
			[]string{"Link made", "Bea", "By Dora", "Reading room"}},
		{"a helper joins", func() { s.helper(owner) },
			[]string{"Helper signed in", "Phone of Ines", "Link for Ines", "From 127.0.0.1"}},
		{"an owner's phone joins", func() { s.owner() }, []string{"Device of yours signed in", "Phone of Dora"}},
		{"a wrong link", func() { s.stranger().post("/j", url.Values{"token": {"wrongtoken"}}) },
			[]string{"Refused", "opens nothing", "From 127.0.0.1"}},
		{"a link that has ended", func() {
			_, token := s.helper(owner)
			s.later(60 * 24 * time.Hour)
			assert.Equal(t, 410, s.stranger().post("/j", url.Values{"token": {token}}).StatusCode)
		}, []string{"Refused", "a link that has ended"}},
		{"an installed app", func() {
			start := owner.installCode()
			installed := s.stranger()
			require.Equal(t, 303, installed.open(installed.get(start)).StatusCode)
		}, []string{"Installed app signed in", "Phone of Dora"}},
		{"an unknown install code", func() { s.stranger().post("/j/open", url.Values{"i": {"wrongcode"}}) },
			[]string{"Refused", "opens nothing"}},
		{"a page of the owner's", func() {
			helper, _ := s.helper(owner)
			assert.Equal(t, 404, helper.get("/jobs/reading/share").StatusCode)
		}, []string{"Refused", "not allowed", "Phone of Ines"}},
		{"a page that is not for helpers", func() {
			helper, _ := s.helper(owner)
			assert.Equal(t, 403, helper.get("/jobs/reading/brief").StatusCode)
		}, []string{"Refused", "not allowed", "Phone of Ines"}},
		{"another job", func() {
			helper, _ := s.helper(owner)
			assert.Equal(t, 404, helper.get("/jobs/other").StatusCode)
		}, []string{"Refused", "not allowed", "Phone of Ines"}},
		{"the owner's log", func() {
			helper, _ := s.helper(owner)
			assert.Equal(t, 403, helper.sync("/api/v1/jobs/reading/own/sync", `{"v":1,"d":"phone1"}`).StatusCode)
		}, []string{"Refused", "not allowed", "Phone of Ines"}},
	}
}

// refusalsThatAreLogged lists refused requests, ended links and devices, and limits that were reached.
func refusalsThatAreLogged(t *testing.T, s *site, owner *phone) []logged {
	t.Helper()
	return []logged{
		{"an operation that a helper may not send", func() {
			helper, _ := s.helper(owner)
			assert.Equal(t, wire.Denied, ack(t, helper, "phone9", s.op(9, "brief", "title", `"Mine"`)))
		}, []string{"Refused", "not allowed", "Phone of Ines", "1 change"}},
		{"another site", func() {
			r := owner.request("POST", "/jobs/reading/do", strings.NewReader("act=tick"))
			r.Header.Set("Sec-Fetch-Site", "cross-site")
			owner.send(r)
		}, []string{"Refused", "another website"}},
		{"a stranger", func() { s.stranger().get("/api/v1/me") }, []string{"Refused", "not signed in"}},
		{"too many", func() {
			p := s.stranger()
			for range 30 {
				p.post("/j/open", url.Values{"i": {"guess"}})
			}
		}, []string{"Refused", "too many requests"}},
		{"a link is ended", func() {
			owner.link(url.Values{"name": {"Cleo"}, "role": {"helper"}})
			id := owner.get("/jobs/reading/share").
				doc(t).
				Find(`#links form:contains("Cleo") input[name="link"]`).
				AttrOr("value", "")
			require.Equal(t, 303, owner.post("/jobs/reading/share/end", url.Values{"link": {id}}).StatusCode)
		}, []string{"Link ended", "Link for Cleo", "By Dora"}},
		{"an invite is made", func() { owner.post("/jobs/reading/share/owner", nil) },
			[]string{"Link for your other device made", "By Dora"}},
		{"a device is ended", func() {
			s.owner()
			id := owner.get("/jobs/reading/share").doc(t).Find(`#own-devices input[name="device"]`).First().AttrOr("value", "")
			require.Equal(t, 303, owner.post("/jobs/reading/share/device", url.Values{"device": {id}}).StatusCode)
		}, []string{"Device of yours ended", "By Dora"}},
		{"an hour's limit", func() {
			helper, _ := s.helper(owner)
			for n := range 6 {
				helper.sync(syncPath, s.filler("flooder", n, 1))
			}
		}, []string{"Hourly limit reached", "Phone of Ines", "changes", "Reading room"}},
	}
}

// TestTheSecurityLogTellsWhatHappened checks that the security log records every event about access to jobs, with who
// and from where.
func TestTheSecurityLogTellsWhatHappened(t *testing.T) {
	s := newSite(t, func(c *serve.Config) { c.BaseURL = "" })
	owner := s.owner()
	rows := append(joinsThatAreLogged(t, s, owner), refusalsThatAreLogged(t, s, owner)...)
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			s.later(20 * time.Minute)
			row.do()
			lines := owner.securityLines("")
			require.NotEmpty(t, lines)
			told := func(line string) bool {
				for _, want := range row.want {
					if !strings.Contains(line, want) {
						return false
					}
				}
				return true
			}
			assert.True(t, slices.ContainsFunc(lines[:min(4, len(lines))], told), "among the newest, %v: %v", row.want,
				lines[:min(4, len(lines))])
		})
	}
	assert.Contains(t, s.log.String(), "msg=security what=joined", "the server's log must have it too")
	assert.Less(t, len(owner.securityLines("?show=refused")), len(owner.securityLines("")))
	for _, line := range owner.securityLines("?show=refused") {
		assert.Contains(t, line, "Refused")
	}
	older := owner.get("/security?page=2")
	assert.Equal(t, 200, older.StatusCode)
	assert.Equal(t, 200, owner.get("/security?show=%3Cscript%3E&page=-1e9").StatusCode)
}

// TestTheSecurityLogTellsOfSeveralLogs checks that a request for several logs is recorded log by log.
func TestTheSecurityLogTellsOfSeveralLogs(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	for _, row := range []struct {
		name string
		asks func() wire.LogRequest
		want []string
	}{
		{"an operation that a helper may not send", func() wire.LogRequest {
			return helper.forLog("reading", s.op(9, "brief",
				"title", `"Mine"`))
		},
			[]string{"Refused", "not allowed", "Phone of Ines", "1 change", "Reading room"}},
		{"the owner's log", func() wire.LogRequest { return helper.forLog("reading" + wire.OwnSuffix) },
			[]string{"Refused", "not allowed", "Phone of Ines", "Reading room"}},
		{"another job", func() wire.LogRequest { return helper.forLog("other") }, []string{"Refused", "not allowed",
			"Phone of Ines"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			s.later(20 * time.Minute)
			before := owner.securityLines("")
			got, _ := helper.asks(row.asks())
			require.Equal(t, 200, got.StatusCode)
			lines := owner.securityLines("")
			require.Len(t, lines, len(before)+1)
			for _, want := range row.want {
				assert.Contains(t, lines[0], want)
			}
		})
	}
}

// TestTheSecurityLogIsTheOwnersAndHoldsNoSecrets checks that the security log is for the owner only, contains no
// secret, and counts a flood of refusals as one line.
func TestTheSecurityLogIsTheOwnersAndHoldsNoSecrets(t *testing.T) {
	s := newSite(t)
	invite, err := store.Invite(s.dir, store.Options{Now: s.nowMS.Load})
	require.NoError(t, err)
	owner := s.stranger()
	require.Equal(t, 303, owner.post("/j?as=owner", url.Values{"token": {invite}, "name": {"Dora"}}).StatusCode)
	helper, link := s.helper(owner)
	start := helper.installCode()
	_, code, _ := strings.Cut(start, "?i=")
	installed := s.stranger()
	require.Equal(t, 303, installed.open(installed.get(start)).StatusCode)
	forged := s.stranger()
	forged.cookie = &http.Cookie{Name: owner.cookie.Name, Value: "aforgedcookievalue"}
	for range 8 {
		forged.get("/api/v1/me")
		s.stranger().post("/j", url.Values{"token": {"aguessedtokenvalue"}})
	}
	assert.Equal(t, 404, helper.get("/security").StatusCode)
	assert.Equal(t, 401, s.stranger().get("/security").StatusCode)

	data, err := os.ReadFile(filepath.Join(s.dir, "security.ndjson"))
	require.NoError(t, err)
	page := owner.get("/security").body
	for name, secret := range map[string]string{"invite": invite, "link": link, "code": code,
		"owner's cookie": owner.cookie.Value, "helper's cookie": helper.cookie.Value,
		"installed app's cookie": installed.cookie.Value, "forged": "aforgedcookievalue", "guess": "aguessedtokenvalue"} {
		for where, text := range map[string]string{"file": string(data), "page": page, "server's log": s.log.String()} {
			assert.NotContains(t, text, secret, "%s in %s", name, where)
			assert.NotContains(t, text, hashOf(secret), "hash of %s in %s", name, where)
		}
	}
	refused := owner.securityLines("?show=refused")
	assert.Len(t, refused, 5,
		"the first guess and 7 more, the same for forged cookies and a stranger, and the helper: %v", refused)
	assert.Contains(t, strings.Join(refused, "\n"), "7 times")
	assert.Contains(t, owner.get("/phone").doc(t).Find(`a[href="/security"]`).Text(), "Open the log")
	assert.Zero(t, helper.get("/phone").doc(t).Find(`a[href="/security"]`).Length())
}

// TestTheSecurityLogSurvivesAFullDisk checks that a full disk stops neither the server nor the page.
func TestTheSecurityLogSurvivesAFullDisk(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	path := filepath.Join(s.dir, "security.ndjson")
	require.NoError(t, os.Remove(path))
	require.NoError(t, os.Mkdir(path, 0o700)) // a folder cannot be appended to
	helper, _ := s.helper(owner)
	assert.Equal(t, 200, helper.get("/jobs/reading/next").StatusCode)
	got := owner.get("/security")
	require.Equal(t, 200, got.StatusCode, got.body)
	assert.Contains(t, got.body, "not saved yet")
	assert.Contains(t, got.body, "Phone of Ines")
	require.NoError(t, os.Remove(path))
	s.helper(owner)
	got = owner.get("/security")
	assert.NotContains(t, got.body, "not saved yet")
	assert.GreaterOrEqual(t, strings.Count(got.body, "Phone of Ines"), 2)
}

// hashOf returns the hash under which the store saves a token.
func hashOf(token string) string {
	sum := sha256.Sum256([]byte(token))
	return hex.EncodeToString(sum[:])
}
