package serve_test

import (
	"bufio"
	"context"
	"io"
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// listen opens the event stream of "reading" and reads up to the first empty line. From then on it receives news.
func (p *phone) listen(ctx context.Context) (*http.Response, *bufio.Reader) {
	response, err := http.DefaultClient.Do(p.request("GET", "/api/v1/jobs/reading/events", nil).WithContext(ctx))
	require.NoError(p.t, err)
	lines := bufio.NewReader(response.Body)
	if response.StatusCode == 200 {
		first := block(p.t, lines)
		require.True(p.t, strings.HasPrefix(first, "retry: "), first)
	}
	return response, lines
}

func block(t *testing.T, r *bufio.Reader) string {
	var b strings.Builder
	for {
		line, err := r.ReadString('\n')
		require.NoError(t, err, "the stream ended after %q", b.String())
		if line == "\n" {
			return b.String()
		}
		b.WriteString(line)
	}
}

func TestNewsArrivesAndTheStreamEndsOnStop(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	response, lines := helper.listen(ctx)
	defer response.Body.Close()
	assert.Equal(t, "text/event-stream", response.Header.Get("Content-Type"))
	assert.Equal(t, "no-store", response.Header.Get("Cache-Control"))
	require.Equal(t, 303,
		owner.post("/jobs/reading/do", url.Values{"act": {"note"}, "e": {"card/load"}, "text": {"Mind the lift"}}).StatusCode)
	news := block(t, lines)
	assert.Contains(t, news, "event: head\n")
	assert.Contains(t, news, "data: {\"s\":")
	assert.NotContains(t, news, "lift", "news must not contain its content")
	s.server.Stop()
	rest, err := io.ReadAll(lines)
	require.NoError(t, err, "the stream must end when the server stops")
	assert.Empty(t, rest)
}

func TestStreamsAreFewAndForMembers(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	assert.Equal(t, 401, s.stranger().get("/api/v1/jobs/reading/events").StatusCode)
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	for range 2 {
		response, _ := owner.listen(ctx)
		defer response.Body.Close()
		require.Equal(t, 200, response.StatusCode)
	}
	got := owner.get("/api/v1/jobs/reading/events")
	assert.Equal(t, 429, got.StatusCode)
	assert.NotEmpty(t, got.Header.Get("Retry-After"))
	cancel()
}
