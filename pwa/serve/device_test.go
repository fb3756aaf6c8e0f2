package serve_test

import (
	"context"
	"net/url"
	"testing"
	"time"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	wire "garlandry/app/sync"
)

// lostPhone returns an owner, the owner's second device, and that device's id.
func lostPhone(s *site) (owner, lost *phone, id string) {
	lost = s.owner()
	s.later(time.Minute)
	owner = s.owner()
	id = owner.get("/jobs/reading/share").doc(s.t).Find(`#own-devices input[name="device"]`).AttrOr("value", "")
	require.NotEmpty(s.t, id)
	return owner, lost, id
}

// TestALostPhoneIsEndedFromAnother checks that the owner ends a lost phone's access from another phone, with immediate
// effect.
func TestALostPhoneIsEndedFromAnother(t *testing.T) {
	s, _ := beating(t)
	owner, lost, id := lostPhone(s)
	rows := owner.get("/jobs/reading/share").doc(t).Find("#own-devices li")
	require.Equal(t, 2, rows.Length())
	assert.Equal(t, 1, rows.FilterFunction(func(_ int, row *goquery.Selection) bool {
		return assert.ObjectsAreEqual(1, row.Find("button").Length())
	}).Length(), "the current device has no button to end it")
	assert.Contains(t, rows.First().Text(), "this device")
	assert.Contains(t, rows.Last().Text(), "seen 1 min ago")
	me := lost.get("/jobs/reading/share").doc(t).Find("#own-devices li").Last().Text()
	assert.Contains(t, me, "this device")
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	response, lines := lost.listen(ctx)
	defer response.Body.Close()

	assert.Equal(t, 404, owner.post("/jobs/reading/share/device", url.Values{"device": {"nosuch"}}).StatusCode)
	own := lost.get("/jobs/reading/share").doc(t).Find(`#own-devices input[name="device"]`).AttrOr("value", "")
	assert.Equal(t, 403, owner.post("/jobs/reading/share/device", url.Values{"device": {own}}).StatusCode,
		"the current device cannot be ended")
	helper, _ := s.helper(owner)
	assert.Equal(t, 404, helper.post("/jobs/reading/share/device", url.Values{"device": {id}}).StatusCode)
	assert.Equal(t, 200, lost.get("/").StatusCode)
	require.Equal(t, 303, owner.post("/jobs/reading/share/device", url.Values{"device": {id}}).StatusCode)
	ended(t, lines) // without waiting for a heartbeat or news
	assert.Equal(t, 403, lost.get("/").StatusCode)
	assert.Equal(t, 404, lost.get("/jobs/reading/share").StatusCode)
	assert.NotContains(t, lost.get("/api/v1/me").body, "reading")
	last := owner.get("/jobs/reading/share").doc(t).Find("#own-devices li").Last()
	assert.Contains(t, last.Text(), "ended")
	assert.Zero(t, last.Find("button").Length())
	assert.Equal(t, 200, owner.get("/").StatusCode)
}

// TestFormsOfALostPhoneWaitForTheOwner checks that a form from an ended device of the owner waits for the owner, in
// either log, and cannot create jobs.
func TestFormsOfALostPhoneWaitForTheOwner(t *testing.T) {
	s := newSite(t)
	owner, lost, id := lostPhone(s)
	require.Equal(t, 303, owner.post("/jobs/reading/share/device", url.Values{"device": {id}}).StatusCode)
	s.later(time.Second)
	got := lost.post("/jobs/reading/do", url.Values{"act": {"add"}, "e": {"card/make/door"}, "n": {"4"}})
	assert.Equal(t, 202, got.StatusCode, got.body)
	assert.Contains(t, got.body, "waits for the owner to accept it")
	assert.NotContains(t, got.body, "Reading room reopening")
	require.Equal(t, wire.Quarantined,
		lost.exchange("reading/own", s.op(1, "own/contact", "name", `"The reading circle"`)).Acks[0].Result)
	assert.Contains(t, owner.get("/api/v1/me").body, `"held":2`)
	held, err := s.store.Quarantine("reading")
	require.NoError(t, err)
	require.Len(t, held, 2)
	before := s.standing()
	for path, values := range map[string]url.Values{"/new": {"title": {"The thief's"}}, "/jobs/reading/copy": {},
		"/import": {"text": {"{}"}}, "/jobs/nosuch/do": {"act": {"add"}, "e": {"card/load"}, "n": {"1"}}} {
		assert.Equal(t, 403, lost.post(path, values).StatusCode, path)
	}
	assert.True(t, before == s.standing(), "something was written")
	list := owner.get("/jobs/reading/share").doc(t).Find("#held")
	assert.Contains(t, list.Text(), "+4: Make the clusters for Door garland")
	assert.Contains(t, list.Text(), "The reading circle")
	require.Equal(t, 303,
		owner.post("/jobs/reading/share/keep", url.Values{"op": {held[0].Op.ID, held[1].Op.ID}}).StatusCode)
	assert.Contains(t, owner.get("/jobs/reading/brief").body, "The reading circle")
	assert.Zero(t, owner.get("/jobs/reading/share").doc(t).Find("#held").Length())
}
