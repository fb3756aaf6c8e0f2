package serve_test

import (
	"net/url"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestDeletingAndRestoringAJob deletes a job after its file was offered. The list of deleted jobs brings it back for
// thirty days. Only the owner may do either, and both are in the security log.
func TestDeletingAndRestoringAJob(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	for _, path := range []string{"/jobs/reading/delete", "/deleted"} {
		assert.Equal(t, 404, helper.get(path).StatusCode, path)
		assert.Equal(t, 404, helper.post(path, url.Values{"job": {"reading"}}).StatusCode, path)
	}
	assert.Equal(t, 1, owner.get("/jobs/reading").doc(t).Find(`a[href="/jobs/reading/delete"]`).Length())
	assert.Equal(t, 404, owner.get("/jobs/nowhere/delete").StatusCode)
	owner.clientLink("reading", url.Values{})
	ask := owner.get("/jobs/reading/delete").doc(t)
	assert.Equal(t, "Save the job file first", ask.Find(`a[href="/jobs/reading/export"]`).Text())
	assert.Equal(t, "Delete it, with 30 days to restore", ask.Find("#delete-job button").Text())
	assert.Contains(t, ask.Find("#page").Text(), "2 links will close.", "the helper's and the client's")

	require.Equal(t, 303, owner.post("/jobs/reading/delete", nil).StatusCode)
	assert.Equal(t, 404, owner.get("/jobs/reading").StatusCode)
	assert.Equal(t, 403, helper.get("/jobs/reading/next").StatusCode, "a helper hears that the link has ended")
	home := owner.get("/").doc(t)
	assert.Zero(t, home.Find(`a[href="/jobs/reading"]`).Length())
	assert.Equal(t, "1 deleted", home.Find(`a[href="/deleted"]`).Text())
	assert.Contains(t, owner.get("/api/v1/me").body, `"deleted":[{"id":"reading"}]`)
	assert.NotContains(t, helper.get("/api/v1/me").body, "deleted")

	row := owner.get("/deleted").doc(t).Find("#deleted li")
	require.Equal(t, 1, row.Length())
	assert.Contains(t, row.Text(), "Reading room reopening")
	got := owner.post("/deleted", url.Values{"job": {"reading"}})
	assert.Equal(t, "/jobs/reading", got.Header.Get("Location"))
	assert.Contains(t, owner.get("/jobs/reading").body, "Reading room reopening")
	assert.Equal(t, 200, helper.get("/jobs/reading/next").StatusCode, "the link opens again")

	owner.post("/jobs/reading/delete", nil)
	s.later(30 * 24 * time.Hour)
	assert.Equal(t, 410, owner.post("/deleted", url.Values{"job": {"reading"}}).StatusCode)
	assert.Zero(t, owner.get("/deleted").doc(t).Find("#deleted").Length())
	assert.Contains(t, owner.get("/api/v1/me").body, `"deleted":[{"id":"reading","gone":true}]`)
	late := owner.sync("/api/v1/jobs/reading/sync", `{"v":1,"app":"test","d":"phone1","now":1}`)
	assert.Equal(t, 410, late.StatusCode)
	assert.Contains(t, late.body, "deleted for good")
	log := owner.get("/security?show=links").doc(t).Find("#security").Text()
	for _, line := range []string{"Job deleted, restorable for 30 days", "Deleted job restored",
		"Deleted job removed for good"} {
		assert.Contains(t, log, line)
	}
}
