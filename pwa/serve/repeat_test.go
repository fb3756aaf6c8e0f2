package serve_test

import (
	"context"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"garlandry/app/job"
	wire "garlandry/app/sync"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// postID returns the id of a post. Each letter gives another post.
func postID(letter string) string { return strings.Repeat(letter, 26) }

// postAs sends a form with an id, as a page's script does.
func (p *phone) postAs(id, path string, values url.Values) answer {
	r := p.request("POST", path, strings.NewReader(values.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	r.Header.Set("Idempotency-Key", id)
	return p.send(r)
}

// counted returns the job's tally of a card.
func (s *site) counted(t *testing.T, entity string) int64 {
	t.Helper()
	shared, _, err := s.store.State("reading")
	require.NoError(t, err)
	return shared.Tally(entity).Total()
}

func TestAFormSentAgainCountsOnce(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	add := url.Values{"act": {"add"}, "e": {"card/look"}, "n": {"3"}, "back": {"/jobs/reading/cards"}}
	for range 3 {
		got := owner.postAs(postID("a"), "/jobs/reading/do", add)
		require.Equal(t, 200, got.StatusCode, got.body)
		assert.Equal(t, "kept", got.Header.Get("Garlandry-Form"))
		assert.Equal(t, "/jobs/reading/cards", got.Header.Get("Content-Location"), "the answer must be the next page")
		assert.NotEmpty(t, got.doc(t).Find("main h1").Text())
		assert.EqualValues(t, 3, s.counted(t, "card/look"))
	}
	owner.postAs(postID("b"), "/jobs/reading/do", add)
	assert.EqualValues(t, 6, s.counted(t, "card/look"), "another id counts again")
	for range 2 {
		assert.Equal(t, 303, owner.postAs("not an id", "/jobs/reading/do", add).StatusCode,
			"treated as a form without scripts")
	}
	assert.EqualValues(t, 12, s.counted(t, "card/look"))
}

// TestAFormSentAgainAfterOthersIsNoRefusal checks that a repeated form stays accepted, even if it would be refused now.
func TestAFormSentAgainAfterOthersIsNoRefusal(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	note := func(id, was, text string) answer {
		return owner.postAs(id, "/jobs/reading/do",
			url.Values{"act": {"note"}, "e": {"card/load"}, "was.text": {was}, "text": {text}})
	}
	require.Equal(t, "kept", note(postID("a"), "", "mine").Header.Get("Garlandry-Form"))
	require.Equal(t, "kept", note(postID("b"), "mine", "theirs").Header.Get("Garlandry-Form"))
	again := note(postID("a"), "", "mine")
	assert.Equal(t, "kept", again.Header.Get("Garlandry-Form"))
	assert.Equal(t, 200, again.StatusCode)
	assert.Contains(t, owner.get("/jobs/reading/cards/load").body, "theirs")
	assert.Equal(t, "refused", note(postID("c"), "", "of a third").Header.Get("Garlandry-Form"), "never accepted")
}

func TestAJobMadeAgainIsOneJob(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	typed := url.Values{"title": {"Quayside supper"}, "date": {"2027-06-01"}, "piece.garland": {"10"}, "crew": {"2"}}
	at := ""
	for range 2 {
		got := owner.postAs(postID("c"), "/new", typed)
		require.Equal(t, "kept", got.Header.Get("Garlandry-Form"), got.body)
		at = got.Header.Get("Content-Location")
		assert.Contains(t, at, "/jobs/"+job.Post(postID("c")).EntityID(0))
	}
	jobs, err := s.store.Jobs(s.store.System("test"))
	require.NoError(t, err)
	assert.Len(t, jobs, 3)
	assert.Contains(t, owner.get(at).body, "Quayside supper")
}

// TestAFormAndThePhonesOperationsAreOne checks that a form counts once if both the phone's core and the page send it,
// in either order.
func TestAFormAndThePhonesOperationsAreOne(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	post := job.Post(postID("d"))
	op := job.Op{ID: post.OpID(false, 0), Device: "phone1", Number: 1, Version: 1, Kind: job.Add,
		Entity: "card/look", Delta: 3, Wall: s.nowMS.Load()}
	require.Equal(t, wire.OK, owner.exchange("reading", op).Acks[0].Result)
	add := url.Values{"act": {"add"}, "e": {"card/look"}, "n": {"3"}}
	assert.Equal(t, "kept", owner.postAs(string(post), "/jobs/reading/do", add).Header.Get("Garlandry-Form"))
	assert.EqualValues(t, 3, s.counted(t, "card/look"))

	post = job.Post(postID("e"))
	assert.Equal(t, "kept", owner.postAs(string(post), "/jobs/reading/do", add).Header.Get("Garlandry-Form"))
	op.ID, op.Number = post.OpID(false, 0), 2
	assert.Equal(t, wire.Duplicate, owner.exchange("reading", op).Acks[0].Result)
	assert.EqualValues(t, 6, s.counted(t, "card/look"))
}

func TestOnlyAFinalAnswerHasTheHeader(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	note := url.Values{"act": {"note"}, "e": {"card/load"}, "text": {"the ladder is in the hall"}}
	refused := owner.postAs(postID("f"), "/jobs/reading/brief", url.Values{"title": {""}})
	assert.Equal(t, "refused", refused.Header.Get("Garlandry-Form"))
	assert.Equal(t, 1, refused.doc(t).Find(`[name=title]`).Length(), "the form must be shown again")
	assert.Equal(t, "refused", owner.postAs(postID("f"), "/jobs/nowhere/do", note).Header.Get("Garlandry-Form"))
	stranger := s.stranger().postAs(postID("g"), "/jobs/reading/do", note)
	assert.Equal(t, 401, stranger.StatusCode)
	assert.Empty(t, stranger.Header.Get("Garlandry-Form"), "it may sign in again")

	s.later(40 * 24 * time.Hour) // a month whose journal cannot be written, as on a full disk
	journal := filepath.Join(s.dir, "ops-202706.ndjson")
	require.NoError(t, os.Mkdir(journal, 0o700))
	full := owner.postAs(postID("h"), "/jobs/reading/do", note)
	assert.Equal(t, http.StatusInsufficientStorage, full.StatusCode)
	assert.Empty(t, full.Header.Get("Garlandry-Form"))
	require.NoError(t, os.Remove(journal))
	assert.Equal(t, "kept", owner.postAs(postID("h"), "/jobs/reading/do", note).Header.Get("Garlandry-Form"))
}

func TestALateFormSentAgainIsHeldOnce(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	links, err := s.store.Links("reading")
	require.NoError(t, err)
	require.NoError(t, s.store.RevokeLink(context.Background(), s.store.System("test"), links[0].ID))
	add := url.Values{"act": {"add"}, "e": {"card/look"}, "n": {"3"}}
	for range 2 {
		got := helper.postAs(postID("k"), "/jobs/reading/do", add)
		assert.Equal(t, 202, got.StatusCode, got.body)
		assert.Equal(t, "kept", got.Header.Get("Garlandry-Form"))
	}
	held, err := s.store.Quarantine("reading")
	require.NoError(t, err)
	assert.Len(t, held, 1)
}
