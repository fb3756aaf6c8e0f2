package serve_test

import (
	"encoding/json"
	"net/url"
	"strings"
	"testing"

	"garlandry/app/store"
	"garlandry/pwa/serve"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestEveryAnswerCarriesTheHeaders(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	for _, path := range []string{"/", "/jobs/reading", "/jobs/reading/share", "/j", "/scan", "/shell", "/nowhere",
		"/jobs/none", "/api/v1/me", "/api/v1/nowhere", "/healthz",
		"/robots.txt", "/manifest.webmanifest", "/sw.js", "/a/nothing", s.shell.URL("css/app.css")} {
		h := owner.get(path).Header
		policy := h.Get("Content-Security-Policy")
		for _, part := range []string{"default-src 'none'", "script-src 'self' 'wasm-unsafe-eval'", "style-src 'self'",
			"frame-ancestors 'none'", "base-uri 'none'", "form-action 'self'"} {
			assert.Contains(t, policy, part, path)
		}
		assert.NotContains(t, policy, "unsafe-inline", path)
		assert.Equal(t, "nosniff", h.Get("X-Content-Type-Options"), path)
		assert.Equal(t, "same-origin", h.Get("Referrer-Policy"), path)
		assert.Equal(t, "same-origin", h.Get("Cross-Origin-Opener-Policy"), path)
		assert.Empty(t, h.Get("Strict-Transport-Security"), "%s: only with HTTPS", path)
		assert.Empty(t, h.Get("Access-Control-Allow-Origin"), path)
	}
	for _, path := range []string{"/", "/jobs/reading", "/api/v1/me", "/jobs/reading/share"} {
		assert.Equal(t, "no-store", owner.get(path).Header.Get("Cache-Control"), path)
	}
	doc := owner.get("/jobs/reading").doc(t)
	assert.Zero(t, doc.Find("[style],[onclick],style,script:not([src])").Length(), "the policy would block these")
}

// TestNoSecretsInTheLog checks that the log of joins, page views and failures contains none of their secrets.
func TestNoSecretsInTheLog(t *testing.T) {
	s := newSite(t)
	invite, err := store.Invite(s.dir, store.Options{Now: s.nowMS.Load})
	require.NoError(t, err)
	owner := s.stranger()
	owner.get("/j?as=owner&token=" + invite)
	require.Equal(t, 303, owner.post("/j?as=owner", url.Values{"token": {invite}, "name": {"Dora"}}).StatusCode)
	helper, link := s.helper(owner)
	owner.post("/j", url.Values{"token": {invite}}) // already used
	helper.agent = "iPhone"
	start := startURL(t, helper)
	_, code, _ := strings.Cut(start, "?i=")
	require.NotEmpty(t, code)
	installed := s.stranger()
	require.Equal(t, 303, installed.open(installed.get(start)).StatusCode)
	installed.get(start)
	more := owner.post("/jobs/reading/share/owner", nil)
	require.Equal(t, 200, more.StatusCode)
	_, invite2, _ := strings.Cut(more.doc(t).Find("#fresh-url").AttrOr("value", ""), "#")
	require.NotEmpty(t, invite2)
	helper.get("/jobs/other")
	helper.sync("/api/v1/jobs/reading/sync", `{"v":1`)
	helper.post("/jobs/reading/do", url.Values{"act": {"note"}, "e": {"card/load"}, "text": {"A note to nobody"}})

	log := s.log.String()
	assert.Contains(t, log, "path=/j/open", "the log must have been written")
	assert.Contains(t, log, "path=/api/v1/jobs/reading/sync status=400")
	for name, secret := range map[string]string{"invite": invite, "second invite": invite2, "link": link,
		"install code": code, "owner's cookie": owner.cookie.Value,
		"helper's cookie": helper.cookie.Value, "installed app's cookie": installed.cookie.Value, "client": clientName,
		"note": "A note to nobody"} {
		require.Greater(t, len(secret), 8, name)
		assert.NotContains(t, log, secret, name)
	}
}

func TestHealthAndRobots(t *testing.T) {
	s := newSite(t)
	p := s.stranger()
	got := p.get("/healthz")
	assert.Equal(t, 200, got.StatusCode)
	assert.Regexp(t, `^ok\nroom on the disk: \d+ MB\n$`, got.body)
	got = p.get("/robots.txt")
	assert.Equal(t, 200, got.StatusCode)
	assert.Equal(t, "User-agent: *\nDisallow: /\n", got.body)
	require.NoError(t, s.store.Close())
	assert.Equal(t, 500, p.get("/healthz").StatusCode, "a server that cannot read its data is unhealthy")
}

func TestManifestAndItsIcons(t *testing.T) {
	s := newSite(t)
	p := s.stranger()
	got := p.get("/manifest.webmanifest")
	require.Equal(t, 200, got.StatusCode)
	assert.Equal(t, "application/manifest+json", got.Header.Get("Content-Type"))
	var manifest struct {
		Name  string `json:"name"`
		Start string `json:"start_url"`
		Icons []struct {
			Src  string `json:"src"`
			Type string `json:"type"`
		} `json:"icons"`
	}
	require.NoError(t, json.Unmarshal([]byte(got.body), &manifest))
	assert.NotEmpty(t, manifest.Name)
	assert.Equal(t, "/", manifest.Start)
	require.NotEmpty(t, manifest.Icons)
	for _, icon := range manifest.Icons {
		assert.True(t, strings.HasPrefix(icon.Src, "/a/"), icon.Src)
		got := p.get(icon.Src)
		assert.Equal(t, 200, got.StatusCode, icon.Src)
		assert.Equal(t, icon.Type, got.Header.Get("Content-Type"), icon.Src)
		assert.NotEmpty(t, got.body, icon.Src)
	}
	assert.Equal(t, 302, p.get("/favicon.ico").StatusCode)
}

// TestPagesNameFilesThatExist requests every file that a page names.
func TestPagesNameFilesThatExist(t *testing.T) {
	s := newSite(t)
	p := s.owner()
	found := 0
	for _, path := range []string{"/", "/jobs/reading", "/shell", "/j"} {
		p.get(path).doc(t).Find("link[href],script[src]").Each(func(_ int, n *goquery.Selection) {
			to := n.AttrOr("href", n.AttrOr("src", ""))
			if strings.HasPrefix(to, "/") {
				found++
				assert.Equal(t, 200, p.get(to).StatusCode, "%s links to %s", path, to)
			}
		})
	}
	assert.Greater(t, found, 4)
}

func TestServiceWorker(t *testing.T) {
	s := newSite(t)
	got := s.stranger().get("/sw.js")
	assert.Equal(t, 200, got.StatusCode)
	assert.Equal(t, "text/javascript; charset=utf-8", got.Header.Get("Content-Type"))
	assert.Equal(t, "no-cache", got.Header.Get("Cache-Control"))
	assert.NotEmpty(t, got.body)
	retired := newSite(t, func(c *serve.Config) { c.RetireWorker = true }).stranger().get("/sw.js")
	assert.Contains(t, retired.body, "unregister")
}

// TestAssetsUseAnEncodingTheBrowserAccepts checks that a file is the same compressed or not, and that the server
// sends only encodings that the browser accepts.
func TestAssetsUseAnEncodingTheBrowserAccepts(t *testing.T) {
	s := newSite(t)
	p := s.stranger()
	address := s.shell.URL("css/app.css")
	r := p.request("GET", address, nil)
	r.Header.Set("Accept-Encoding", "identity")
	plain := p.send(r)
	assert.Equal(t, 200, plain.StatusCode)
	assert.Empty(t, plain.Header.Get("Content-Encoding"))
	assert.Equal(t, "Accept-Encoding", plain.Header.Get("Vary"))
	assert.Contains(t, plain.Header.Get("Content-Type"), "text/css")
	assert.Equal(t, plain.body, p.get(address).body, "decompressed by the client, it must be the same")
	assert.Equal(t, 404, p.get("/a/../go.mod").StatusCode)
	assert.Equal(t, 404, p.get("/a/%2e%2e/%2e%2e/go.mod").StatusCode)
}
