package serve_test

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/url"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"garlandry/app/job"
	"garlandry/app/store"
	wire "garlandry/app/sync"
	"garlandry/app/sync/memory"
	"garlandry/app/sync/server"
	"garlandry/pwa/serve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Each of these tests was added after a deliberate break went unnoticed.

const secretPrice = "100 for 4711.90"

// TestPricesReachNoHelper checks that the owner's prices reach no helper in any log or page, however they were written.
func TestPricesReachNoHelper(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	_, err := s.store.Write(context.Background(), s.store.System("test"), "reading",
		[]job.Change{job.Put("own/prices/latex/11", "bags", secretPrice)})
	require.NoError(t, err)
	// A faulty owner's phone sends the price to the shared log.
	astray := s.op(1, "own/prices/latex/5", "bags", `"`+secretPrice+`"`)
	assert.Equal(t, wire.Invalid, ack(t, owner, "phone1", astray), "it must be refused there")
	heal, err := json.Marshal(
		wire.Request{V: wire.WireVersion, Device: "phone1", Now: s.nowMS.Load(),
			Heal: []job.Rec{{Op: astray, Effective: s.nowMS.Load(), Author: job.Author{Role: job.Owner}}}},
	)
	require.NoError(t, err)
	got := owner.sync(syncPath, string(heal))
	require.Equal(t, 200, got.StatusCode)
	assert.Contains(t, got.body, `"r":"invalid"`, "nor as a record to heal")

	const ask = `{"v":1,"d":"phone9","now":1}`
	assert.Contains(t, owner.sync("/api/v1/jobs/reading/own/sync", ask).body, "4711.90", "the owner's phone gets it")
	assert.Contains(t, owner.get("/jobs/reading/shop").body, "4711.90")
	for _, role := range []string{"helper", "lead"} {
		token := owner.link(url.Values{"name": {"Ines"}, "role": {role}})
		p := s.stranger()
		require.Equal(t, 303, p.post("/j", url.Values{"token": {token}}).StatusCode)
		for _, path := range []string{"/api/v1/jobs/reading/own/sync", "/api/v1/jobs/reading~own/sync",
			"/api/v1/jobs/reading%7Eown/sync"} {
			got := p.sync(path, ask)
			assert.GreaterOrEqual(t, got.StatusCode, 400, "%s %s", role, path)
			assert.NotContains(t, got.body, "4711.90", "%s %s", role, path)
		}
		shared := p.sync(syncPath, ask)
		require.Equal(t, 200, shared.StatusCode)
		assert.NotContains(t, shared.body, "4711.90", role)
		assert.NotContains(t, shared.body, `"e":"own/`, role)
		for _, path := range []string{"/jobs/reading", "/jobs/reading/shop", "/jobs/reading/pack", "/jobs/reading/counts",
			"/jobs/reading/history", "/jobs/reading/export", "/api/v1/me"} {
			assert.NotContains(t, p.get(path).body, "4711.90", "%s %s", role, path)
		}
	}
}

// TestEachLayerKeepsTheOwnersLog checks that each layer alone keeps the owner's log from helpers, so that a bug in
// another layer does not leak it.
func TestEachLayerKeepsTheOwnersLog(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	session, err := s.store.Session(helper.cookie.Value)
	require.NoError(t, err)
	req := wire.Request{V: wire.WireVersion, Device: "phone9", Now: s.nowMS.Load()}
	_, err = s.store.Sync(context.Background(), session, "reading"+wire.OwnSuffix, req)
	assert.ErrorIs(t, err, store.ErrForbidden, "the store")
	for _, role := range []job.Role{job.Helper, job.Lead, ""} {
		j, found := s.server.ReadJob("reading", role)
		require.True(t, found)
		assert.Empty(t, j.Contact, "pages, for %q", role)
		memory := memory.New("reading"+wire.OwnSuffix, "epoch", []byte("a key"), 1)
		_, err = server.Serve(memory, server.Session{ID: "s", Author: job.Author{Role: role, Link: "l"}}, req, 1)
		assert.ErrorIs(t, err, wire.ErrPrivate, "the exchange, for %q", role)
	}
}

// TestASyncBodyIsNotReadBeyondItsLimit checks that a sync body over its limit is refused: by its declared length, or
// while reading if it declares none.
func TestASyncBodyIsNotReadBeyondItsLimit(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	for _, path := range []string{syncPath, "/api/v1/jobs/reading/own/sync"} {
		endless := &counted{}
		r := owner.request("POST", path, endless)
		r.Header.Set("Content-Type", jsonType)
		r.Header.Set("Sec-Fetch-Site", "same-origin")
		client := &http.Client{Timeout: time.Minute}
		if response, err := client.Do(r); err == nil { // the server may close the connection while we send
			_ = response.Body.Close()
			assert.Equal(t, 413, response.StatusCode, path)
		}
		assert.Less(t, endless.sent.Load(), int64(wire.MaxBytes+16<<20), "%s: some more fits into buffers",
			path)

		conn, err := net.Dial("tcp", s.http.Listener.Addr().String())
		require.NoError(t, err)
		require.NoError(t, conn.SetDeadline(time.Now().Add(10*time.Second)))
		fmt.Fprintf(conn,
			"POST %s HTTP/1.1\r\nHost: x\r\nCookie: %s=%s\r\nContent-Type: application/json\r\nContent-Length: %d\r\n\r\n{",
			path, owner.cookie.Name, owner.cookie.Value, wire.MaxBytes+1)
		response, err := http.ReadResponse(bufio.NewReader(conn), nil)
		if assert.NoError(t, err, "%s: must be answered before the body is sent", path) {
			assert.Equal(t, 413, response.StatusCode, path)
			_ = response.Body.Close()
		}
		require.NoError(t, conn.Close())
	}
}

// counted is a body of up to 64 MB that counts the bytes read.
type counted struct{ sent atomic.Int64 }

func (c *counted) Read(p []byte) (int, error) {
	if c.sent.Load() >= 64<<20 {
		return 0, io.EOF
	}
	for i := range p {
		p[i] = ' '
	}
	c.sent.Add(int64(len(p)))
	return len(p), nil
}

// TestTheAppLivesUnderOneHost checks that the app has one host name. Under another name pages redirect to it, and posts
// are refused.
func TestTheAppLivesUnderOneHost(t *testing.T) {
	s := newSite(t, func(c *serve.Config) { c.BaseURL = "https://balloons.example" })
	as := func(host, method, path, body string) answer {
		p := s.stranger()
		r := p.request(method, path, strings.NewReader(body))
		r.Host = host
		r.Header.Set("Content-Type", formType)
		return p.send(r)
	}
	before := s.standing()
	for _, host := range []string{"balloons.example:444", "other.example", "127.0.0.1", "balloons.example.evil.example"} {
		for _, path := range []string{"/", "/j", "/jobs/reading/pack?left=1", "/sw.js", "/manifest.webmanifest", "/a/x",
			"/api/v1/me", "//evil.example/"} {
			for _, method := range []string{"GET", "HEAD"} {
				got := as(host, method, path, "")
				assert.Equal(t, 308, got.StatusCode, "%s %s%s", method, host, path)
				assert.Equal(t, "https://balloons.example"+path, got.Header.Get("Location"), "%s %s%s", method, host, path)
				assert.Empty(t, got.Cookies())
			}
			assert.Equal(t, 421, as(host, "POST", path, "token=x").StatusCode, "POST %s%s", host, path)
		}
		assert.Equal(t, 200, as(host, "GET", "/healthz", "").StatusCode,
			"monitoring may use the server's address")
	}
	assert.Equal(t, 200, as("balloons.example", "GET", "/j", "").StatusCode)
	assert.Equal(t, 404, as("balloons.example", "POST", "/j", "token=nosuchtoken").StatusCode)
	assert.True(t, before == s.standing(), "something was written")
	assert.Equal(t, 200, newSite(t).stranger().get("/j").StatusCode, "without a configured address any host works")
}

// TestHelpersFormsAreSmall checks that only the owner, who imports jobs, may send large forms.
func TestHelpersFormsAreSmall(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	large := url.Values{"act": {"tick"}, "e": {"card/load"}, "text": {strings.Repeat("x", 300<<10)}}
	assert.Equal(t, 413, helper.post("/jobs/reading/do", large).StatusCode)
	assert.Equal(t, 303, owner.post("/jobs/reading/do", large).StatusCode)
	assert.Equal(
		t,
		303,
		helper.post("/jobs/reading/do",
			url.Values{"act": {"tick"}, "e": {"card/load"}, "text": {strings.Repeat("x", 20<<10)}}).StatusCode,
	)
}
