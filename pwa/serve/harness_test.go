package serve_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"garlandry/app/job"
	"garlandry/app/store"
	wire "garlandry/app/sync"
	"garlandry/pwa/serve"
	"garlandry/pwa/shell"
	"garlandry/static"
	"garlandry/testdata"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/require"
)

// The client's contact in the test job must never reach a helper.
const (
	clientName   = "Wilhelmina Overcliffe"
	clientAgreed = "Invoice to the trustees"
)

// site is one running server with its data, its log and its clock.
type site struct {
	t      *testing.T
	server *serve.Server
	http   *httptest.Server
	store  *store.Store
	shell  *shell.Shell
	dir    string
	log    *safeBuffer
	nowMS  atomic.Int64
	ids    atomic.Int64
}

// newSite starts a server with two jobs: "reading", which is the demo with a client, and "other".
func newSite(t *testing.T, alter ...func(*serve.Config)) *site {
	s := &site{t: t, dir: t.TempDir(), log: &safeBuffer{}}
	s.nowMS.Store(time.Date(2027, 5, 8, 9, 0, 0, 0, time.UTC).UnixMilli())
	newID := func() string { return fmt.Sprintf("id%024d", s.ids.Add(1)) }
	var err error
	s.store, err = store.Open(s.dir, store.Options{Now: s.nowMS.Load, NewID: newID, Random: rand.NewChaCha8([32]byte{7})})
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, s.store.Close()) })
	s.shell, err = shell.Load(static.Files)
	if !errors.Is(err, shell.ErrNotBuilt) {
		require.NoError(t, err)
	}
	config := serve.Config{Store: s.store, Shell: s.shell,
		Log: slog.New(slog.NewTextHandler(s.log, &slog.HandlerOptions{Level: slog.LevelDebug})),
		Now: func() time.Time { return time.UnixMilli(s.nowMS.Load()).UTC() }, NewID: newID, Version: "test"}
	for _, change := range alter {
		change(&config)
	}
	s.server, err = serve.New(config)
	require.NoError(t, err)
	s.http = httptest.NewServer(s.server.Handler())
	t.Cleanup(s.http.Close)
	text := strings.NewReplacer("The librarian", clientName, "Photos allowed without visitors in them.", clientAgreed).
		Replace(string(testdata.DemoJob))
	require.Contains(t, text, clientName)
	require.Contains(t, text, clientAgreed)
	changes, err := job.DecodeFile([]byte(text))
	require.NoError(t, err)
	for _, id := range []string{"reading", "other"} {
		_, err = s.store.CreateJob(context.Background(), s.store.System("test"), id, changes)
		require.NoError(t, err)
	}
	return s
}

func (s *site) later(d time.Duration) { s.nowMS.Add(d.Milliseconds()) }

// standing returns as text everything that a request could change: jobs, links, devices, quarantined work, and the
// journal.
func (s *site) standing() string {
	var b strings.Builder
	jobs, err := s.store.Jobs(s.store.System("test"))
	require.NoError(s.t, err)
	for _, j := range jobs {
		links, err := s.store.Links(j.ID)
		require.NoError(s.t, err)
		held, err := s.store.Quarantine(j.ID)
		require.NoError(s.t, err)
		fmt.Fprintf(&b, "%+v\n%+v\n%+v\n", j, links, held)
	}
	devices, err := s.store.OwnerDevices()
	require.NoError(s.t, err)
	fmt.Fprintf(&b, "%+v\n", devices)
	files, err := filepath.Glob(filepath.Join(s.dir, "ops-*.ndjson"))
	require.NoError(s.t, err)
	require.NotEmpty(s.t, files)
	for _, name := range files {
		data, err := os.ReadFile(name)
		require.NoError(s.t, err)
		b.Write(data)
	}
	return b.String()
}

// phone is one visitor, with a cookie and a browser's headers.
type phone struct {
	*site
	cookie *http.Cookie
	agent  string
}

func (s *site) stranger() *phone { return &phone{site: s} }

// answer is a complete response.
type answer struct {
	*http.Response
	body string
}

func (a answer) doc(t *testing.T) *goquery.Document {
	doc, err := goquery.NewDocumentFromReader(strings.NewReader(a.body))
	require.NoError(t, err)
	return doc
}

func (p *phone) request(method, path string, body io.Reader) *http.Request {
	r, err := http.NewRequest(method, p.http.URL+path, body)
	require.NoError(p.t, err)
	if p.cookie != nil {
		r.AddCookie(p.cookie)
	}
	if p.agent != "" {
		r.Header.Set("User-Agent", p.agent)
	}
	return r
}

func (p *phone) send(r *http.Request) answer {
	client := &http.Client{Timeout: time.Minute,
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	response, err := client.Do(r)
	require.NoError(p.t, err)
	defer response.Body.Close()
	data, err := io.ReadAll(response.Body)
	require.NoError(p.t, err)
	for _, c := range response.Cookies() {
		if strings.HasSuffix(c.Name, "garlandry") {
			p.cookie = c
		}
	}
	return answer{response, string(data)}
}

func (p *phone) get(path string) answer { return p.send(p.request("GET", path, nil)) }

func (p *phone) post(path string, values url.Values) answer {
	r := p.request("POST", path, strings.NewReader(values.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	return p.send(r)
}

func (p *phone) sync(path string, body string) answer {
	r := p.request("POST", path, strings.NewReader(body))
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	return p.send(r)
}

// exchange sends operations and returns the server's answer.
func (p *phone) exchange(log string, ops ...job.Op) wire.Response {
	data, err := json.Marshal(
		wire.Request{V: wire.WireVersion, App: "test", Device: "phone1", Now: p.nowMS.Load(), Ops: ops},
	)
	require.NoError(p.t, err)
	got := p.sync("/api/v1/jobs/"+log+"/sync", string(data))
	require.Equal(p.t, 200, got.StatusCode, got.body)
	response, err := wire.DecodeResponse([]byte(got.body))
	require.NoError(p.t, err)
	return response
}

func (s *site) op(number uint64, entity, field, value string) job.Op {
	return job.Op{ID: fmt.Sprintf("op%024d", number), Device: "phone1", Number: number, Version: 1,
		Kind: job.Set, Entity: entity, Field: field, Value: json.RawMessage(value), Wall: s.nowMS.Load()}
}

// owner joins by an invite.
func (s *site) owner() *phone {
	token, err := store.Invite(s.dir, store.Options{Now: s.nowMS.Load})
	require.NoError(s.t, err)
	p := s.stranger()
	got := p.post("/j?as=owner", url.Values{"token": {token}, "name": {"Dora"}})
	require.Equal(s.t, 303, got.StatusCode, got.body)
	require.NotNil(s.t, p.cookie)
	return p
}

// link makes a helper link on the Share page and returns its token.
func (p *phone) link(values url.Values) string {
	got := p.post("/jobs/reading/share/new", values)
	require.Equal(p.t, 200, got.StatusCode, got.body)
	address := got.doc(p.t).Find("#fresh-url").AttrOr("value", "")
	_, token, found := strings.Cut(address, "/j#")
	require.True(p.t, found, "no link is shown: %q", address)
	token, _, _ = strings.Cut(token, "&name=")
	return token
}

// helper joins "reading" by a link of the owner.
func (s *site) helper(owner *phone) (*phone, string) {
	token := owner.link(url.Values{"name": {"Ines"}, "role": {"helper"}})
	p := s.stranger()
	got := p.post("/j", url.Values{"token": {token}, "name": {"Ines"}})
	require.Equal(s.t, 303, got.StatusCode, got.body)
	require.Equal(s.t, "/jobs/reading/next", got.Header.Get("Location"))
	return p, token
}

// safeBuffer is a log that several goroutines may write.
type safeBuffer struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (b *safeBuffer) Write(p []byte) (int, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.b.Write(p)
}

func (b *safeBuffer) String() string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.b.String()
}
