package serve_test

import (
	"context"
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// leave posts the form that signs out, as a browser does.
func (p *phone) leave(values url.Values) answer {
	r := p.request("POST", "/phone/out", strings.NewReader(values.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.Header.Set("Accept", "text/html,application/xhtml+xml")
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	return p.send(r)
}

// TestAScriptSignsOut checks that a script's request ends the session but clears no storage. The script does that
// itself, because clearing a waiting service worker would make it hang.
func TestAScriptSignsOut(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	copied := &phone{site: s, cookie: owner.cookie}
	got := owner.post("/phone/out", nil)
	assert.Equal(t, 204, got.StatusCode)
	assert.Empty(t, got.Header.Get("Clear-Site-Data"))
	assert.Equal(t, -1, owner.cookie.MaxAge)
	assert.Contains(t, s.owner().get("/security").body, "Phone signed out")
	assert.Equal(t, 401, copied.get("/api/v1/me").StatusCode)
}

// TestSigningOutEndsTheSession checks that signing out deletes the cookie, invalidates copies of it, and ends its
// streams.
func TestSigningOutEndsTheSession(t *testing.T) {
	for _, row := range []struct {
		name string
		who  func(*site) (leaver, stays *phone)
	}{
		{"owner", func(s *site) (*phone, *phone) { return s.owner(), s.owner() }},
		{"helper", func(s *site) (*phone, *phone) {
			owner := s.owner()
			helper, _ := s.helper(owner)
			return helper, owner
		}},
	} {
		t.Run(row.name, func(t *testing.T) {
			s, _ := beating(t)
			leaver, stays := row.who(s)
			require.Contains(t, leaver.get("/phone").body, `href="/phone/out"`)
			page := leaver.get("/phone/out")
			require.Equal(t, 200, page.StatusCode)
			require.Equal(t, "/phone/out", page.doc(t).Find("#leave").AttrOr("action", ""))
			assert.Contains(t, page.body, "did not share is lost")
			ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
			defer cancel()
			response, lines := leaver.listen(ctx)
			defer response.Body.Close()
			copied := &phone{site: s, cookie: leaver.cookie}

			got := leaver.leave(nil)
			require.Equal(t, 200, got.StatusCode, got.body)
			ended(t, lines)
			assert.Equal(t, -1, leaver.cookie.MaxAge, "the cookie must be deleted")
			assert.Empty(t, leaver.cookie.Value)
			assert.True(t, leaver.cookie.HttpOnly)
			assert.Equal(t, http.SameSiteStrictMode, leaver.cookie.SameSite)
			assert.Equal(t, `"storage"`, got.Header.Get("Clear-Site-Data"))
			assert.Equal(t, "no-store", got.Header.Get("Cache-Control"))
			assert.Contains(t, got.body, "Signed out")
			assert.NotContains(t, got.body, "Reading room")

			for _, path := range []string{"/api/v1/me", "/api/v1/jobs/reading/events"} {
				assert.Equal(t, 401, copied.get(path).StatusCode, path)
			}
			assert.Equal(t, 401, copied.sync("/api/v1/jobs/reading/sync", `{"v":1,"d":"phone1"}`).StatusCode)
			assert.Equal(t, 401, copied.post("/jobs/reading/do", url.Values{"act": {"tick"}, "e": {"card/load"}}).StatusCode)
			assert.NotContains(t, copied.get("/jobs/reading").body, "Reading room")
			assert.Equal(t, 200, copied.leave(nil).StatusCode, "signing out again changes nothing")
			assert.Equal(t, 200, stays.get("/api/v1/me").StatusCode, "nobody else may be signed out")
		})
	}
}

// TestAfterSigningOut checks that a helper can join again by the same link, that an installed app keeps its own
// session, and that an unused code opens nothing after its session has ended.
func TestAfterSigningOut(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, token := s.helper(owner)
	helper.agent = "iPhone"
	start, unspent := startURL(t, helper), startURL(t, helper)
	installed := s.stranger()
	_, code, _ := strings.Cut(start, "?i=")
	require.Equal(t, 303, installed.post("/j/open", url.Values{"i": {code}, "instead": {"yes"}}).StatusCode)
	require.NotNil(t, installed.cookie)
	require.Equal(t, 200, helper.leave(nil).StatusCode)
	assert.Equal(t, 200, installed.get("/api/v1/me").StatusCode)
	late := s.stranger()
	_, code, _ = strings.Cut(unspent, "?i=")
	spent, never := late.post("/j/open", url.Values{"i": {code}}), late.post("/j/open", url.Values{"i": {"nosuch"}})
	assert.Equal(t, never.StatusCode, spent.StatusCode, "same as for an unknown code")
	assert.Nil(t, late.cookie, "a code of an ended session must not sign in")
	again := s.stranger()
	require.Equal(t, 303, again.post("/j", url.Values{"token": {token}, "name": {"Ines"}}).StatusCode)
	assert.Equal(t, 200, again.get("/jobs/reading/next").StatusCode)
}

// TestAPhonesSignOutFormIsConfirmed checks the phone's own sign-out form, which sends everything first. If the core
// cannot, the server asks again.
func TestAPhonesSignOutFormIsConfirmed(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	got := owner.leave(url.Values{"here": {"yes"}})
	assert.Equal(t, 409, got.StatusCode)
	assert.Contains(t, got.body, "did not share is lost")
	assert.Empty(t, got.Header.Get("Clear-Site-Data"))
	assert.Equal(t, 200, owner.get("/api/v1/me").StatusCode)
	assert.Zero(t, got.doc(t).Find(`#leave [name="here"]`).Length(), "the server's form signs out at once")
	assert.Equal(t, 200, owner.leave(url.Values{"here": {"yes"}, "all": {"yes"}}).StatusCode)
	assert.Equal(t, 401, owner.get("/api/v1/me").StatusCode)
}

// TestOnlyOurPagesSignOut checks that only our own pages can sign somebody out, and only by POST.
func TestOnlyOurPagesSignOut(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	r := owner.request("POST", "/phone/out", strings.NewReader(""))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.Header.Set("Sec-Fetch-Site", "cross-site")
	r.Header.Set("Origin", "https://elsewhere.example")
	assert.Equal(t, 403, owner.send(r).StatusCode)
	assert.Equal(t, 200, owner.get("/phone/out").StatusCode)
	assert.Equal(t, 200, owner.get("/out").StatusCode)
	assert.Empty(t, owner.get("/out").Header.Get("Clear-Site-Data"))
	assert.NotContains(t, owner.get("/out").body, "data-left", "opening the page must clear nothing")
	assert.Equal(t, 200, owner.get("/api/v1/me").StatusCode)
}

// TestTheLastDeviceIsWarned checks that the owner is warned before the last device signs out, on the page and on the
// phone.
func TestTheLastDeviceIsWarned(t *testing.T) {
	s := newSite(t)
	first := s.owner()
	const warning = "This is your last device"
	assert.Contains(t, first.get("/phone/out").body, warning)
	assert.Contains(t, first.get("/phone/out").body, "garlandry invite")
	assert.Contains(t, first.get("/api/v1/me").body, `"last":true`)
	second := s.owner()
	helper, _ := s.helper(first)
	for _, p := range []*phone{first, second, helper} {
		assert.NotContains(t, p.get("/phone/out").body, warning)
		assert.NotContains(t, p.get("/api/v1/me").body, `"last"`)
	}
	require.Equal(t, 200, second.leave(nil).StatusCode)
	assert.Contains(t, first.get("/phone/out").body, warning)
	assert.Contains(t, first.get("/api/v1/me").body, `"last":true`)
}

// TestAClosedSessionSignsOut checks that a device whose link has ended can still sign out.
func TestAClosedSessionSignsOut(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	links, err := s.store.Links("reading")
	require.NoError(t, err)
	require.Equal(t, 303, owner.post("/jobs/reading/share/end", url.Values{"link": {links[0].ID}}).StatusCode)
	page := helper.get("/phone/out")
	assert.Equal(t, 200, page.StatusCode)
	assert.Equal(t, 1, page.doc(t).Find("#leave").Length())
	assert.NotContains(t, page.body, "Reading room")
	assert.Equal(t, 200, helper.leave(nil).StatusCode)
}
