package serve_test

import (
	"net/url"
	"strings"
	"testing"
	"time"

	wire "garlandry/app/sync"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What a helper did before the link was taken back, and hands in afterwards, waits for the owner and is never lost.
func TestLateWorkWaitsForTheOwner(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, link := s.helper(owner)
	late := s.op(1, "card/load", "done", "true")
	dropped := s.op(2, "card/load", "taken", `"Zacharias"`)
	s.later(time.Minute)
	id := owner.get("/jobs/reading/share").doc(t).Find(`form[action="/jobs/reading/share/end"] input[name="link"]`).AttrOr("value", "")
	require.NotEmpty(t, id)
	require.Equal(t, 303, owner.post("/jobs/reading/share/end", url.Values{"link": {id}}).StatusCode)

	assert.Equal(t, 403, helper.get("/jobs/reading/next").StatusCode)
	assert.Equal(t, 403, helper.post("/jobs/reading/do", url.Values{"act": {"tick"}, "e": {"card/load"}}).StatusCode)
	assert.Equal(t, 404, helper.get("/api/v1/jobs/reading/events").StatusCode)
	assert.Equal(t, 410, s.stranger().post("/j", url.Values{"token": {link}}).StatusCode, "nobody joins by it any more")
	me := helper.get("/api/v1/me")
	assert.Contains(t, me.body, `"closed":"revoked"`)
	assert.NotContains(t, me.body, "reading")

	response := helper.exchange("reading", late, dropped)
	assert.Equal(t, wire.Revoked, response.Closed)
	assert.Empty(t, response.Recs, "a closed link gets nothing of the job")
	require.Len(t, response.Acks, 2)
	for _, ack := range response.Acks {
		assert.Equal(t, wire.Quarantined, ack.Result)
	}
	assert.Equal(t, response.Acks, helper.exchange("reading", late, dropped).Acks, "the same again when sent again")

	waiting := func() map[string]bool {
		ops := map[string]bool{}
		owner.get("/jobs/reading/share").doc(t).Find(`input[name="op"]`).Each(func(_ int, in *goquery.Selection) { ops[in.AttrOr("value", "")] = true })
		return ops
	}
	done := func() bool { return isDone(owner) }
	assert.Equal(t, map[string]bool{late.ID: true, dropped.ID: true}, waiting())
	assert.False(t, done())
	assert.Equal(t, 404, helper.post("/jobs/reading/share/keep", url.Values{"op": {late.ID}}).StatusCode, "only the owner decides")
	assert.Equal(t, 404, owner.post("/jobs/reading/share/keep", url.Values{"op": {"nosuchoperation"}}).StatusCode)
	assert.Equal(t, 404, owner.post("/jobs/other/share/keep", url.Values{"op": {late.ID}}).StatusCode, "not by way of another job")
	assert.False(t, done())
	require.Equal(t, 303, owner.post("/jobs/reading/share/keep", url.Values{"op": {late.ID}}).StatusCode)
	assert.True(t, done(), "it is taken in")
	assert.Contains(t, owner.get("/jobs/reading/history").body, "Ines", "under the name of who did it")
	require.Equal(t, 303, owner.post("/jobs/reading/share/drop", url.Values{"op": {dropped.ID}}).StatusCode)
	assert.Empty(t, waiting())
	assert.NotContains(t, owner.get("/jobs/reading/cards/load").body, "Zacharias")
}

func isDone(p *phone) bool {
	found := false
	p.get("/jobs/reading/cards/load").doc(p.t).Find("form.deed").Each(func(_ int, f *goquery.Selection) {
		found = found || f.Find(`input[name="act"]`).AttrOr("value", "") == "untick" && f.Find(`input[name="e"]`).AttrOr("value", "") == "card/load"
	})
	return found
}

// A link of another job cannot be ended by way of this one's page.
func TestEndingALinkThatIsNone(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	before := s.standing()
	for _, id := range []string{"", "nolink", strings.Repeat("x", 3000), "../reading"} {
		assert.Equal(t, 404, owner.post("/jobs/reading/share/end", url.Values{"link": {id}}).StatusCode, "%.20q", id)
	}
	id := owner.get("/jobs/reading/share").doc(t).Find(`form[action="/jobs/reading/share/end"] input[name="link"]`).AttrOr("value", "")
	assert.Equal(t, 404, owner.post("/jobs/other/share/end", url.Values{"link": {id}}).StatusCode)
	assert.True(t, before == s.standing(), "something was written")
	assert.Equal(t, 200, helper.get("/jobs/reading/next").StatusCode)
}

// What a helper hands in after the job was put away is listed for the owner.
func TestWhatComesAfterTheJobWasPutAwayIsListed(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	assert.Zero(t, owner.get("/jobs/reading/share").doc(t).Find("#late").Length())
	require.Equal(t, 303, owner.post("/jobs/reading/away", nil).StatusCode)
	helper.exchange("reading", s.op(1, "card/load", "taken", `"Zacharias"`))
	late := owner.get("/jobs/reading/share").doc(t).Find("#late").Text()
	assert.Contains(t, late, "Zacharias")
	assert.Contains(t, late, "Ines")
}
