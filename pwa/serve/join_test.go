package serve_test

import (
	"encoding/json"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"testing"
	"time"

	"garlandry/app/store"
	"garlandry/pwa/serve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestOwnerJoinsByAnInviteOnce(t *testing.T) {
	s := newSite(t)
	token, err := store.Invite(s.dir, store.Options{Now: s.nowMS.Load})
	require.NoError(t, err)
	p := s.stranger()
	assert.Equal(t, 403, p.get("/").StatusCode, "a stranger must see no jobs")
	assert.Equal(t, 200, p.get("/j?as=owner").StatusCode)
	got := p.post("/j?as=owner", url.Values{"token": {token}, "name": {"Dora"}})
	require.Equal(t, 303, got.StatusCode, got.body)
	assert.Equal(t, "/", got.Header.Get("Location"))
	require.Len(t, got.Cookies(), 1)
	c := got.Cookies()[0]
	assert.True(t, c.HttpOnly)
	assert.Equal(t, http.SameSiteStrictMode, c.SameSite)
	assert.Equal(t, "/", c.Path)
	assert.NotContains(t, got.body, c.Value, "no page may contain the cookie's secret")
	assert.Contains(t, p.get("/").body, "Reading room reopening")

	second := s.stranger()
	got = second.post("/j?as=owner", url.Values{"token": {token}, "name": {"Eve"}})
	assert.Equal(t, 404, got.StatusCode, "an invite works once")
	assert.Nil(t, second.cookie)
	assert.Equal(t, 200, p.get("/").StatusCode, "the first device stays signed in")
}

func TestJoinUnderHTTPS(t *testing.T) {
	s := newSite(t, func(c *serve.Config) { c.TLS = true })
	p := s.owner()
	assert.Equal(t, "__Host-garlandry", p.cookie.Name)
	assert.True(t, p.cookie.Secure)
	assert.NotEmpty(t, p.get("/").Header.Get("Strict-Transport-Security"))
}

func TestInviteExpires(t *testing.T) {
	s := newSite(t)
	token, err := store.Invite(s.dir, store.Options{Now: s.nowMS.Load})
	require.NoError(t, err)
	s.later(8 * 24 * time.Hour)
	p := s.stranger()
	assert.Equal(t, 410, p.post("/j?as=owner", url.Values{"token": {token}}).StatusCode)
	assert.Nil(t, p.cookie)
}

// TestInstalledAppSignsInOnce checks that an installed app with empty storage signs in with the single-use code in its
// manifest.
func TestInstalledAppSignsInOnce(t *testing.T) {
	s := newSite(t)
	p := s.owner()
	assert.Equal(t, "/", startURL(t, p), "a browser that shares its cookies gets no code")
	p.agent = "Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X)"
	start := startURL(t, p)
	require.True(t, strings.HasPrefix(start, "/j/open?i="), start)
	installed := s.stranger()
	got := installed.get(start)
	require.Equal(t, 200, got.StatusCode)
	require.Nil(t, installed.cookie, "it must ask first")
	assert.Equal(t, "Open as Dora", got.doc(t).Find("#join-open button").Text())
	assert.Equal(t, 303, installed.open(got).StatusCode)
	require.NotNil(t, installed.cookie)
	assert.NotEqual(t, p.cookie.Value, installed.cookie.Value, "a session of its own")
	assert.Equal(t, 200, installed.get("/").StatusCode)
	again := installed.get(start)
	assert.Equal(t, 303, again.StatusCode, "from the second start on, the address opens the app")
	assert.Equal(t, "/", again.Header.Get("Location"))
	thief := s.stranger()
	assert.Equal(t, 303, thief.get(start).StatusCode)
	assert.Equal(t, 303, thief.open(got).StatusCode)
	assert.Nil(t, thief.cookie, "the code is used up")
	stranger := s.stranger()
	stranger.agent = p.agent
	assert.Equal(t, "/", startURL(t, stranger), "without a session there is no code")
}

func startURL(t *testing.T, p *phone) string {
	var manifest struct {
		Start string `json:"start_url"`
	}
	require.NoError(t, json.Unmarshal([]byte(p.get("/manifest.webmanifest").body), &manifest))
	return manifest.Start
}

// TestJoinsAreLimited checks that guessing tokens is rate-limited by address, and that waiting for the named pause is
// enough.
func TestJoinsAreLimited(t *testing.T) {
	s := newSite(t)
	p := s.stranger()
	var got answer
	tries := 0
	for ; tries < 100; tries++ {
		got = p.post("/j", url.Values{"token": {"guess" + strconv.Itoa(tries)}})
		if got.StatusCode == 429 {
			break
		}
		require.Equal(t, 404, got.StatusCode)
	}
	assert.Equal(t, 429, got.StatusCode)
	assert.Equal(t, 15, tries)
	seconds, err := strconv.Atoi(got.Header.Get("Retry-After"))
	require.NoError(t, err)
	assert.Greater(t, seconds, 0)
	assert.Equal(t, 429, p.get("/j/open?i=guess").StatusCode, "guessing codes has the same limit")
	s.later(time.Duration(seconds) * time.Second)
	assert.Equal(t, 404, p.post("/j", url.Values{"token": {"again"}}).StatusCode)
	assert.Equal(t, 429, p.post("/j", url.Values{"token": {"again"}}).StatusCode)
}

// TestForgedAddressesDoNotHelp checks that X-Forwarded-For counts only from a named proxy. Otherwise anybody could
// avoid the limits.
func TestForgedAddressesDoNotHelp(t *testing.T) {
	s := newSite(t)
	p := s.stranger()
	last := 0
	for i := range 16 {
		r := p.request("POST", "/j", strings.NewReader("token=guess"))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set("X-Forwarded-For", "192.0.2."+strconv.Itoa(i))
		last = p.send(r).StatusCode
	}
	assert.Equal(t, 429, last)
}

// TestHelpersGoByTheNameTheyType checks that a helper has the name typed on joining, and the link's name by default.
func TestHelpersGoByTheNameTheyType(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	token := owner.link(url.Values{"name": {"Ines & Söhne"}, "role": {"helper"}})
	address := func() string {
		return owner.post("/jobs/reading/share/new", url.Values{"name": {"Ines & Söhne"}, "role": {"helper"}}).
			doc(t).
			Find("#fresh-url").
			AttrOr("value", "")
	}()
	_, named, _ := strings.Cut(address, "&name=")
	plain, err := url.PathUnescape(named)
	require.NoError(t, err)
	assert.Equal(t, "Ines & Söhne", plain)
	long := owner.post("/jobs/reading/share/new", url.Values{"name": {strings.Repeat("🎈", 60)}, "role": {"helper"}}).
		doc(t).
		Find("#fresh-url").
		AttrOr("value", "")
	assert.NotContains(t, long, "&name=", "a link must be short enough for its QR code")

	helper := s.stranger()
	require.Equal(t, 303, helper.post("/j", url.Values{"code": {address}, "name": {"<b>Bea</b>\n\u202e"}}).StatusCode,
		"the whole link may be typed")
	require.Equal(t, 303, helper.post("/jobs/reading/do", url.Values{"act": {"tick"}, "e": {"card/load"}}).StatusCode)
	history := owner.get("/jobs/reading/history?e=card/load")
	assert.Contains(t, history.doc(t).Find(".history").Text(), "<b>Bea</b>")
	assert.Zero(t, history.doc(t).Find(".history b").Length())
	assert.Contains(t, owner.get("/jobs/reading/share").doc(t).Find("#links").Text(), "goes by <b>Bea</b>")
	assert.Equal(t, 400,
		s.stranger().post("/j", url.Values{"token": {token}, "name": {strings.Repeat("x", 61)}}).StatusCode)
	unnamed := s.stranger()
	require.Equal(t, 303, unnamed.post("/j", url.Values{"token": {token}}).StatusCode)
	assert.Contains(t, unnamed.get("/api/v1/me").body, `"name":"Ines \u0026 Söhne"`, "the link's name is the default")
}
