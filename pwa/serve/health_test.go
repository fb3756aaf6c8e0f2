package serve_test

import (
	"os"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestHealthReportsThatNothingCanBeSaved checks that the server is healthy only if a write reaches the disk, and that
// the owner's pages warn if it does not.
func TestHealthReportsThatNothingCanBeSaved(t *testing.T) {
	s := newSite(t)
	p := s.stranger()
	owner := s.owner()
	assert.Equal(t, 200, p.get("/healthz").StatusCode)
	assert.NotContains(t, owner.get("/").body, "nothing can be saved")
	away := s.dir + ".away"
	require.NoError(t, os.Rename(s.dir, away)) // like a lost disk: open files stay, new ones cannot be made
	assert.Equal(t, 200, p.get("/healthz").StatusCode, "it tries a write at most every five seconds")
	s.later(6 * time.Second)
	got := p.get("/healthz")
	assert.Equal(t, 503, got.StatusCode)
	assert.Contains(t, got.body, "nothing can be saved: "+syscall.ENOENT.Error())
	assert.NotContains(t, got.body, s.dir, "a stranger must not see paths")
	for _, path := range []string{"/", "/jobs/reading/next", "/jobs/reading/share"} {
		assert.Contains(t, owner.get(path).doc(t).Find("#state").Text(), "nothing can be saved", path)
	}
	assert.Contains(t, owner.get("/api/v1/me").body, `"full":true`)
	require.NoError(t, os.Rename(away, s.dir))
	s.later(6 * time.Second)
	assert.NotContains(t, owner.get("/").body, "nothing can be saved", "the warning must go when there is room again")
	assert.Equal(t, 200, p.get("/healthz").StatusCode)
}
