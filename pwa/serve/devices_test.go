package serve_test

import (
	"net/url"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestDevicesAreNamedByTheirBrowser checks the name that a device gets on joining, and that one from before gets it on
// its next visit.
func TestDevicesAreNamedByTheirBrowser(t *testing.T) {
	s := newSite(t)
	token := s.owner().link(url.Values{"name": {"Ines"}, "role": {"helper"}})
	for _, row := range []struct{ agent, want string }{
		{iPhoneSafari, "iPhone, Safari"},
		{iPhoneChrome, "iPhone, Chrome"},
		{oldIPad, "iPad, Safari"},
		{macOrIPad, "Mac or iPad, Safari"},
		{macChrome, "Mac, Chrome"},
		{androidChrome, "Android phone, Chrome"},
		{androidTablet, "Android tablet, Chrome"},
		{androidFirefox, "Android phone, Firefox"},
		{windowsEdge, "Windows computer, Edge"},
		{linuxFirefox, "Linux computer, Firefox"},
	} {
		p := s.stranger()
		p.agent = row.agent
		require.Equal(t, 303, p.post("/j", url.Values{"token": {token}}).StatusCode)
		session, err := s.store.Session(p.cookie.Value)
		require.NoError(t, err)
		assert.Equal(t, row.want, session.Label)
		assert.Equal(t, row.want, p.get("/phone/devices").doc(t).Find("#this-device > p").Text())
		assert.NotRegexp(t, `\d`, session.Label, "no version")
	}
	before := s.stranger()
	require.Equal(t, 303, before.post("/j", url.Values{"token": {token}}).StatusCode)
	title := func() string { return before.get("/phone/devices").doc(t).Find("#this-device > p").Text() }
	assert.Equal(t, "Ines", title(), "its browser says nothing of the machine")
	before.agent = iPhoneSafari
	assert.Equal(t, "iPhone, Safari", title())
}

// TestDevicesAreRenamed checks who may name a device, and that a browser's words do not replace a person's.
func TestDevicesAreRenamed(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	helper.agent = androidChrome
	title := func() string { return helper.get("/phone/devices").doc(t).Find("#this-device > p").Text() }
	require.Equal(t, "Android phone, Chrome", title())
	form := helper.get("/phone/devices").doc(t).Find("#this-device form")
	id := form.Find(`input[name="device"]`).AttrOr("value", "")
	require.NotEmpty(t, id)
	got := helper.post(form.AttrOr("action", ""), url.Values{"device": {id}, "label": {"Ines’s work phone"}})
	assert.Equal(t, "/phone/devices", got.Header.Get("Location"))
	assert.Equal(t, "Ines’s work phone", title())

	share := owner.get("/jobs/reading/share").doc(t)
	row := share.Find("#links details, #share-crew details").First()
	assert.Contains(t, row.Text(), "Ines’s work phone")
	form = row.Find("form").First()
	assert.Equal(t, id, form.Find(`input[name="device"]`).AttrOr("value", ""))
	got = owner.post("/phone/name", url.Values{"device": {id}, "label": {"Lent phone"}, "then": {"/jobs/reading/share"}})
	assert.Equal(t, "/jobs/reading/share", got.Header.Get("Location"))
	assert.Equal(t, "Lent phone", title())
	other, _ := s.helper(owner)
	assert.Equal(t, 404, other.post("/phone/name", url.Values{"device": {id}, "label": {"Mine"}}).StatusCode)
	assert.Equal(t, 400, helper.post("/phone/name", url.Values{"device": {id}, "label": {" "}}).StatusCode)
	elsewhere := url.Values{"device": {id}, "label": {"Lent phone"}, "then": {"//evil.example/jobs/x/share"}}
	assert.Equal(t, "/phone/devices", helper.post("/phone/name", elsewhere).Header.Get("Location"))
	assert.Equal(t, "Lent phone", title())
}

// TestUnusedDevicesAreFoldedAway checks that devices that have ended, or were not seen for a month, leave the list.
func TestUnusedDevicesAreFoldedAway(t *testing.T) {
	s := newSite(t)
	for range 5 {
		s.owner()
	}
	s.later(29 * 24 * time.Hour)
	seen, owner := s.owner(), s.owner()
	for path, used := range map[string]int{"/phone/devices": 6, "/jobs/reading/share": 7} {
		list := owner.get(path).doc(t).Find("#own-devices")
		assert.Equal(t, used, list.Find("li").Length(), path)
		assert.Zero(t, list.Find("#unused-devices").Length(), path)
	}
	s.later(24 * time.Hour)
	for path, used := range map[string]int{"/phone/devices": 1, "/jobs/reading/share": 2} {
		list := owner.get(path).doc(t).Find("#own-devices")
		assert.Equal(t, used, list.Find("ul").First().Find("li").Length(), path)
		assert.Equal(t, 5, list.Find("#unused-devices:not([open]) li").Length(), path)
		assert.Contains(t, list.Find("#unused-devices summary").Text(), "5")
	}
	assert.Equal(t, 200, seen.get("/").StatusCode)
}
