package serve_test

import (
	"compress/gzip"
	"io"
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// plainly sends a request that accepts gzip and returns the answer as it came over the line, with its text.
func (p *phone) plainly(r *http.Request) (sent int, text, encoding string) {
	r.Header.Set("Accept-Encoding", "gzip") // by hand, so that the client leaves the answer as it is
	client := &http.Client{Timeout: time.Minute,
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	answer, err := client.Do(r)
	require.NoError(p.t, err)
	defer answer.Body.Close()
	data, err := io.ReadAll(answer.Body)
	require.NoError(p.t, err)
	encoding = answer.Header.Get("Content-Encoding")
	if encoding != "gzip" {
		return len(data), string(data), encoding
	}
	assert.Contains(p.t, answer.Header.Get("Vary"), "Accept-Encoding")
	reader, err := gzip.NewReader(strings.NewReader(string(data)))
	require.NoError(p.t, err)
	whole, err := io.ReadAll(reader)
	require.NoError(p.t, err)
	return len(data), string(whole), encoding
}

// TestSyncAnswersAreCompressed checks that sync answers and the pages after a form shrink on the line, and that the
// event stream and pages that show a secret do not.
func TestSyncAnswersAreCompressed(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	post := func(path, kind, body string) *http.Request {
		r := owner.request("POST", path, strings.NewReader(body))
		r.Header.Set("Content-Type", kind)
		r.Header.Set("Sec-Fetch-Site", "same-origin")
		return r
	}
	const ask = `{"v":1,"d":"phone9","now":1}`
	for _, row := range []struct {
		name    string
		request *http.Request
		shrinks bool
		holds   string
	}{
		{"a job's first answer", post(syncPath, jsonType, ask), true, `"recs"`},
		{"several logs", post("/api/v1/sync", jsonType, `{"v":1,"logs":[{"l":"reading","req":`+ask+`}]}`), true, "recs"},
		{"a refused form", post("/jobs/reading/brief", formType, "title="), true, "<main"},
		{"a small answer", post("/jobs/reading/do", formType, "act=tick&e=card/load"), false, ""},
		{"a page that shows a new link", post("/jobs/reading/share/new", formType,
			url.Values{"name": {"Ines"}, "role": {"helper"}}.Encode()), false, "fresh-url"},
	} {
		t.Run(row.name, func(t *testing.T) {
			sent, text, encoding := owner.plainly(row.request)
			assert.Contains(t, text, row.holds)
			if !row.shrinks {
				assert.Empty(t, encoding)
				return
			}
			assert.Equal(t, "gzip", encoding)
			t.Logf("%d of %d bytes", sent, len(text))
			assert.Less(t, sent, len(text)*2/5)
		})
	}
	stream := owner.request("GET", "/api/v1/jobs/reading/events", nil)
	stream.Header.Set("Accept-Encoding", "gzip")
	answer, err := http.DefaultTransport.RoundTrip(stream)
	require.NoError(t, err)
	assert.Empty(t, answer.Header.Get("Content-Encoding"))
	assert.Equal(t, "text/event-stream", answer.Header.Get("Content-Type"))
	require.NoError(t, answer.Body.Close())
}
