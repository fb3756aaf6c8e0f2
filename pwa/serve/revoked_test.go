package serve_test

import (
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	wire "garlandry/app/sync"
	"garlandry/app/sync/server"
)

// checkHeld checks what the Share page says about two late changes.
func checkHeld(t *testing.T, owner *phone) {
	t.Helper()
	held := owner.get("/jobs/reading/share").doc(t).Find("#held")
	assert.Equal(t, 1, held.Find("form").Length(), "there must be one form for everything")
	assert.Equal(t, 2, held.Find("input[type=checkbox][checked]").Length(), "work done before the end must be ticked")
	assert.Contains(t, held.Text(), "Ticked: Load the car")
	assert.Contains(t, held.Text(), "Taken by Zacharias: Load the car")
	assert.NotContains(t, held.Text(), "card/")
}

// TestLateWorkWaitsForTheOwner checks that what a helper did before the link was revoked, and sends afterwards, waits
// for the owner and is never lost.
func TestLateWorkWaitsForTheOwner(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, link := s.helper(owner)
	late := s.op(1, "card/load", "done", "true")
	dropped := s.op(2, "card/load", "taken", `"Zacharias"`)
	s.later(time.Minute)
	id := owner.get("/jobs/reading/share").
		doc(t).
		Find(`form[action="/jobs/reading/share/end"] input[name="link"]`).
		AttrOr("value", "")
	require.NotEmpty(t, id)
	require.Equal(t, 303, owner.post("/jobs/reading/share/end", url.Values{"link": {id}}).StatusCode)

	assert.Equal(t, 403, helper.get("/jobs/reading/next").StatusCode)
	assert.Equal(t, 404, helper.get("/api/v1/jobs/reading/events").StatusCode)
	assert.Equal(t, 410, s.stranger().post("/j", url.Values{"token": {link}}).StatusCode, "nobody can join by it any more")
	me := helper.get("/api/v1/me")
	assert.Contains(t, me.body, `"closed":"revoked"`)
	assert.NotContains(t, me.body, "reading")

	response := helper.exchange("reading", late, dropped)
	assert.Equal(t, wire.Revoked, response.Closed)
	assert.Empty(t, response.Recs, "a closed link must receive nothing of the job")
	require.Len(t, response.Acks, 2)
	for _, ack := range response.Acks {
		assert.Equal(t, wire.Quarantined, ack.Result)
	}
	assert.Equal(t, response.Acks, helper.exchange("reading", late, dropped).Acks, "a resend must get the same answer")

	waiting := func() map[string]bool {
		ops := map[string]bool{}
		owner.get("/jobs/reading/share").
			doc(t).
			Find(`input[name="op"]`).
			Each(func(_ int, in *goquery.Selection) { ops[in.AttrOr("value", "")] = true })
		return ops
	}
	done := func() bool { return isDone(owner) }
	assert.Equal(t, map[string]bool{late.ID: true, dropped.ID: true}, waiting())
	checkHeld(t, owner)
	assert.Contains(t, owner.get("/jobs/reading").doc(t).Find("#to-held").Text(),
		"2 things came in after a link ended. Decide what counts.")
	assert.Contains(t, owner.get("/api/v1/me").body, `"held":2`)
	assert.False(t, done())
	assert.Equal(t, 404, helper.post("/jobs/reading/share/keep", url.Values{"op": {late.ID}}).StatusCode,
		"only the owner decides")
	assert.Equal(t, 404, owner.post("/jobs/reading/share/keep", url.Values{"op": {"nosuchoperation"}}).StatusCode)
	assert.Equal(t, 404, owner.post("/jobs/other/share/keep", url.Values{"op": {late.ID}}).StatusCode,
		"not through another job")
	assert.False(t, done())
	require.Equal(t, 303, owner.post("/jobs/reading/share/keep", url.Values{"op": {late.ID}}).StatusCode)
	assert.True(t, done(), "it must be accepted")
	assert.Contains(t, owner.get("/jobs/reading/history").body, "Ines", "under its author's name")
	require.Equal(t, 303, owner.post("/jobs/reading/share/drop", url.Values{"op": {dropped.ID}}).StatusCode)
	assert.Empty(t, waiting())
	assert.Zero(t, owner.get("/jobs/reading").doc(t).Find("#to-held").Length())
	assert.NotContains(t, owner.get("/jobs/reading/cards/load").body, "Zacharias")
}

func isDone(p *phone) bool {
	found := false
	p.get("/jobs/reading/cards/load").doc(p.t).Find("form.deed").Each(func(_ int, f *goquery.Selection) {
		found = found ||
			f.Find(`input[name="act"]`).AttrOr("value", "") == "untick" &&
				f.Find(`input[name="e"]`).AttrOr("value", "") == "card/load"
	})
	return found
}

// TestEndingAnUnknownLink checks that a job's page cannot end an unknown link or a link of another job.
func TestEndingAnUnknownLink(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	before := s.standing()
	for _, id := range []string{"", "nolink", strings.Repeat("x", 3000), "../reading"} {
		assert.Equal(t, 404, owner.post("/jobs/reading/share/end", url.Values{"link": {id}}).StatusCode, "%.20q", id)
	}
	id := owner.get("/jobs/reading/share").
		doc(t).
		Find(`form[action="/jobs/reading/share/end"] input[name="link"]`).
		AttrOr("value", "")
	assert.Equal(t, 404, owner.post("/jobs/other/share/end", url.Values{"link": {id}}).StatusCode)
	assert.True(t, before == s.standing(), "something was written")
	assert.Equal(t, 200, helper.get("/jobs/reading/next").StatusCode)
}

// TestWorkSentAfterTheJobWasArchivedIsListed checks that what a helper sends after the job was archived is listed for
// the owner.
func TestWorkSentAfterTheJobWasArchivedIsListed(t *testing.T) {
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

// TestLateFormsWaitForTheOwner checks that a form that a helper without scripts posts after the link was closed waits
// for the owner, and that the answer says so and shows nothing of the job.
func TestLateFormsWaitForTheOwner(t *testing.T) {
	for name, end := range map[string]func(*site, *phone){
		"revoked": func(_ *site, owner *phone) {
			link := `form[action="/jobs/reading/share/end"] input[name="link"]`
			id := owner.get("/jobs/reading/share").doc(t).Find(link).AttrOr("value", "")
			require.Equal(t, 303, owner.post("/jobs/reading/share/end", url.Values{"link": {id}}).StatusCode)
		},
		"expired": func(s *site, _ *phone) { s.later(60 * 24 * time.Hour) },
	} {
		t.Run(name, func(t *testing.T) {
			s := newSite(t)
			owner := s.owner()
			helper, _ := s.helper(owner)
			end(s, owner)
			s.later(time.Second)
			tick := url.Values{"act": {"add"}, "e": {"card/make/door"}, "n": {"4"}, "back": {"/jobs/reading/cards"}}
			got := helper.post("/jobs/reading/do", tick)
			assert.Equal(t, 202, got.StatusCode)
			assert.Contains(t, got.body, "waits for the owner to accept it")
			assert.NotContains(t, got.body, "kept on your phone")
			assert.NotContains(t, got.body, "Reading room reopening")
			held, err := s.store.Quarantine("reading")
			require.NoError(t, err)
			require.Len(t, held, 1)
			assert.False(t, held[0].BeforeEnd)
			assert.Equal(t, "card/make/door", held[0].Op.Entity)
			made := func() int64 {
				shared, _, err := s.store.State("reading")
				require.NoError(t, err)
				return shared.Tally("card/make/door").Total()
			}
			list := owner.get("/jobs/reading/share").doc(t).Find("#held")
			assert.Contains(t, list.Text(), "+4: Make the clusters for Door garland")
			assert.Contains(t, list.Text(), "after the link ended")
			assert.Equal(t, 1, list.Find("input[type=checkbox]").Length())
			assert.Zero(t, list.Find("input[checked]").Length(), "it was sent after the end")
			before := made()
			require.Equal(t, 303, owner.post("/jobs/reading/share/keep", url.Values{"op": {held[0].Op.ID}}).StatusCode)
			assert.Equal(t, before+4, made(), "the owner accepted it")

			standing := s.standing()
			for _, values := range []url.Values{{"act": {"add"}, "e": {"card/make/door"}, "n": {"many"}},
				{"act": {"nosuchact"}}, {"act": {"note"}, "e": {"card/load"}, "text": {"x"}}} {
				got = helper.post("/jobs/reading/do", values)
				assert.Equal(t, 403, got.StatusCode, values)
				assert.NotContains(t, got.body, "to accept it", values)
				assert.NotContains(t, got.body, "Reading room reopening", values)
			}
			assert.Equal(t, 403, helper.post("/jobs/other/do", tick).StatusCode, "nothing is held for another job")
			assert.Equal(t, 403, helper.post("/jobs/reading/brief", url.Values{"title": {"Mine"}}).StatusCode)
			assert.True(t, standing == s.standing(), "something was written")
		})
	}
}

// TestLateFormsAreBounded checks that a closed link can send a limited amount. Beyond that the answer says that it was
// not kept.
func TestLateFormsAreBounded(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	s.later(60 * 24 * time.Hour)
	add := func() answer {
		s.later(time.Second)
		return helper.post("/jobs/reading/do", url.Values{"act": {"add"}, "e": {"card/make/door"}, "n": {"1"}})
	}
	got, n := add(), 0
	for ; got.StatusCode == 202 && n <= server.MaxHeldOps; n++ {
		got = add()
	}
	assert.Greater(t, n, 100)
	assert.Equal(t, 403, got.StatusCode)
	assert.Contains(t, got.body, "not kept")
	held, err := s.store.Quarantine("reading")
	require.NoError(t, err)
	assert.Len(t, held, n, "exactly what was reported as waiting")
}
