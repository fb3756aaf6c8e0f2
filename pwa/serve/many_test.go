package serve_test

import (
	"context"
	"encoding/json"
	"fmt"
	"net/url"
	"testing"
	"time"

	"garlandry/app/job"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestMeReportsTheEndOfEachLog checks that a phone learns the end of each log, so it need not pull every job.
func TestMeReportsTheEndOfEachLog(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	type row struct {
		ID string `json:"id"`
		E  string `json:"e"`
		S  uint64 `json:"s"`
		H  string `json:"h"`
		OE string `json:"oe"`
		OS uint64 `json:"os"`
		OH string `json:"oh"`
	}
	rows := func(p *phone) map[string]row {
		var me struct{ Jobs []row }
		require.NoError(t, json.Unmarshal([]byte(p.get("/api/v1/me").body), &me))
		byID := map[string]row{}
		for _, r := range me.Jobs {
			byID[r.ID] = r
		}
		return byID
	}
	before := rows(owner)
	require.Len(t, before, 2)
	require.NotEmpty(t, before["reading"].E)
	require.NotEmpty(t, before["reading"].OE)
	shared, own := owner.exchange("reading"), owner.exchange("reading/own")
	assert.Equal(t, row{"reading", shared.Epoch, shared.Head, shared.Hash, own.Epoch, own.Head, own.Hash},
		before["reading"])
	require.Equal(t, 303, helper.post("/jobs/reading/do", url.Values{"act": {"tick"}, "e": {"card/load"}}).StatusCode)
	after := rows(owner)
	assert.Greater(t, after["reading"].S, before["reading"].S)
	assert.Equal(t, before["other"], after["other"])
	assert.Equal(t, before["reading"].OS, after["reading"].OS)
	assert.Zero(t, rows(helper)["reading"].OS, "a helper must learn nothing about the owner's log")
	assert.Empty(t, rows(helper)["reading"].OE)
	assert.Empty(t, rows(helper)["reading"].OH)
}

// TestTheListOfManyJobsIsUpToDate checks the list of many jobs before and after a job has changed.
func TestTheListOfManyJobsIsUpToDate(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	for i := range 40 {
		_, err := s.store.CreateJob(context.Background(), s.store.System("test"), fmt.Sprintf("many%d", i),
			[]job.Change{job.Put("brief", "title", fmt.Sprintf("Title %d.", i))})
		require.NoError(t, err)
	}
	assert.Contains(t, owner.get("/").body, "Title 7.")
	s.later(time.Minute)
	_, err := s.store.Write(context.Background(), s.store.System("test"), "many7",
		[]job.Change{job.Put("brief", "title", "Another title.")})
	require.NoError(t, err)
	body := owner.get("/").body
	assert.Contains(t, body, "Another title.")
	assert.NotContains(t, body, "Title 7.")
	assert.Contains(t, body, "Title 39.")
	require.Equal(t, 303, owner.post("/jobs/many8/away", nil).StatusCode)
	assert.NotContains(t, owner.get("/").doc(t).Find("#page").Text(), "Title 8.")
}

// TestHealthIsLimited checks that health checks are rate-limited.
func TestHealthIsLimited(t *testing.T) {
	s := newSite(t)
	p := s.stranger()
	assert.Equal(t, 200, p.get("/healthz").StatusCode)
	last := 0
	for range 100 {
		last = p.get("/healthz").StatusCode
	}
	assert.Equal(t, 429, last)
	s.later(time.Second)
	assert.Equal(t, 200, p.get("/healthz").StatusCode)
}

// TestClocksAreLimited checks that the clock, which is slow for a big job, is rate-limited for each visitor.
func TestClocksAreLimited(t *testing.T) {
	s := newSite(t)
	owner, other := s.owner(), s.owner()
	for _, path := range []string{"/jobs/reading/clock", "/jobs/reading/calendar.ics"} {
		last := 0
		for range 30 {
			last = owner.get(path).StatusCode
		}
		assert.Equal(t, 429, last, path)
	}
	assert.Equal(t, 200, other.get("/jobs/reading/clock").StatusCode)
	assert.Equal(t, 200, owner.get("/jobs/reading").StatusCode, "other pages are not limited")
	s.later(2 * time.Second)
	assert.Equal(t, 200, owner.get("/jobs/reading/clock").StatusCode)
}

// TestManifestsAreLimited checks that the manifest, which creates install codes, is rate-limited.
func TestManifestsAreLimited(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	owner.agent = "Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X)"
	last := 0
	for range 100 {
		last = owner.get("/manifest.webmanifest").StatusCode
	}
	assert.Equal(t, 429, last)
	assert.Equal(t, 200, s.stranger().get("/manifest.webmanifest").StatusCode)
}
