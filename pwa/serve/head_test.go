package serve_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestHeadIsGetWithoutBody checks that HEAD answers like GET without a body, except where GET changes something.
func TestHeadIsGetWithoutBody(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	for path, want := range map[string]int{"/": 200, "/jobs/reading": 200, "/jobs/reading/share": 200, "/calc": 200,
		"/j": 200, "/scan": 200, "/healthz": 200, "/sw.js": 200,
		"/manifest.webmanifest": 200, "/jobs/nowhere": 404, "/nowhere": 404, "/jobs/reading/do": 405, "/j/open?i=x": 303,
		"/api/v1/jobs/reading/events": 404} {
		got := owner.send(owner.request("HEAD", path, nil))
		assert.Equal(t, want, got.StatusCode, path)
		assert.Empty(t, got.body, path)
		if want == 200 {
			full := owner.get(path)
			assert.Equal(t, full.Header.Get("Content-Type"), got.Header.Get("Content-Type"), path)
			assert.Equal(t, full.Header.Get("Content-Security-Policy"), got.Header.Get("Content-Security-Policy"), path)
		}
	}
	assert.Equal(t, 403, s.stranger().send(s.stranger().request("HEAD", "/", nil)).StatusCode)
	assert.NotContains(t, s.log.String(), "level=ERROR")
}
