package serve_test

import (
	"bufio"
	"context"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"net/url"
	"sync"
	"testing"
	"time"

	"garlandry/pwa/serve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// beating returns a site whose event streams send a heartbeat for each value sent to the channel.
func beating(t *testing.T) (*site, chan time.Time) {
	beats := make(chan time.Time)
	return newSite(t, func(c *serve.Config) {
		c.Ticker = func(every time.Duration) (<-chan time.Time, func()) {
			assert.Equal(t, 15*time.Second, every)
			return beats, func() {}
		}
	}), beats
}

func ended(t *testing.T, lines *bufio.Reader) {
	t.Helper()
	rest, err := io.ReadAll(lines)
	require.NoError(t, err)
	assert.Empty(t, rest, "nothing more may be sent")
}

func TestStreamsBeatAndEndWithTheirLink(t *testing.T) {
	ways := map[string]func(*site, *phone){
		"revoked": func(_ *site, owner *phone) {
			id := owner.get("/jobs/reading/share").
				doc(owner.t).
				Find(`form[action="/jobs/reading/share/end"] input[name="link"]`).
				AttrOr("value", "")
			require.Equal(owner.t, 303, owner.post("/jobs/reading/share/end", url.Values{"link": {id}}).StatusCode)
		},
		"expired": func(s *site, _ *phone) { s.later(390 * 24 * time.Hour) },
	}
	for name, end := range ways {
		for _, by := range []string{"a beat", "news"} {
			t.Run(name+", at "+by, func(t *testing.T) {
				s, beats := beating(t)
				owner := s.owner()
				helper, _ := s.helper(owner)
				ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
				defer cancel()
				response, lines := helper.listen(ctx)
				defer response.Body.Close()
				for range 3 {
					beats <- time.Time{}
					assert.Equal(t, "event: still\ndata: {}\n", block(t, lines))
				}
				end(s, owner)
				if by == "news" {
					require.Equal(
						t,
						303,
						owner.post(
							"/jobs/reading/do",
							url.Values{"act": {"note"}, "e": {"card/load"}, "text": {"Mind the lift"}},
						).StatusCode,
					)
				} else {
					beats <- time.Time{}
				}
				ended(t, lines)
			})
		}
	}
}

// deadlines records the deadlines set on a connection.
type deadlines struct {
	net.Listener
	mu   sync.Mutex
	read time.Time
}

type noted struct {
	net.Conn
	on *deadlines
}

func (d *deadlines) Accept() (net.Conn, error) {
	conn, err := d.Listener.Accept()
	return noted{conn, d}, err
}

func (n noted) SetReadDeadline(at time.Time) error {
	n.on.mu.Lock()
	defer n.on.mu.Unlock()
	n.on.read = at
	return n.Conn.SetReadDeadline(at)
}

// TestStreamsOutliveTheReadTimeout checks that the server's read timeout does not end an event stream.
func TestStreamsOutliveTheReadTimeout(t *testing.T) {
	s, beats := beating(t)
	owner := s.owner()
	slow := httptest.NewUnstartedServer(s.server.Handler())
	watch := &deadlines{Listener: slow.Listener}
	slow.Listener = watch
	slow.Config.ReadTimeout = time.Minute
	slow.Start()
	defer slow.Close()
	r, err := http.NewRequest("GET", slow.URL+"/api/v1/jobs/reading/events", nil)
	require.NoError(t, err)
	r.AddCookie(owner.cookie)
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	response, err := http.DefaultClient.Do(r.WithContext(ctx))
	require.NoError(t, err)
	defer response.Body.Close()
	lines := bufio.NewReader(response.Body)
	block(t, lines)
	watch.mu.Lock()
	assert.True(t, watch.read.IsZero(), "the connection may stay silent, not only until %v", watch.read)
	watch.mu.Unlock()
	beats <- time.Time{}
	assert.Contains(t, block(t, lines), "still")
	cancel()
}
