package serve_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	iPhoneSafari   = "Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X) AppleWebKit/605.1.15 Version/18 Safari/604.1"
	iPhoneChrome   = "Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X) AppleWebKit/605.1.15 CriOS/140.0 Safari/604.1"
	iPhoneFirefox  = "Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X) AppleWebKit/605.1.15 FxiOS/140.0 Safari/604.1"
	oldIPad        = "Mozilla/5.0 (iPad; CPU OS 12_5 like Mac OS X) AppleWebKit/605.1.15 Version/12.1 Safari/604.1"
	macOrIPad      = "Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) AppleWebKit/605.1.15 Version/18.0 Safari/605.1.15"
	iPadFirefox    = "Mozilla/5.0 (Macintosh; Intel Mac OS X 10.15) AppleWebKit/605.1.15 FxiOS/140.0 Safari/605.1.15"
	macChrome      = "Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) AppleWebKit/537.36 Chrome/140.0.0.0 Safari/537.36"
	macFirefox     = "Mozilla/5.0 (Macintosh; Intel Mac OS X 10.15; rv:140.0) Gecko/20100101 Firefox/140.0"
	androidChrome  = "Mozilla/5.0 (Linux; Android 10; K) AppleWebKit/537.36 Chrome/140.0.0.0 Mobile Safari/537.36"
	androidTablet  = "Mozilla/5.0 (Linux; Android 10; K) AppleWebKit/537.36 Chrome/140.0.0.0 Safari/537.36"
	androidFirefox = "Mozilla/5.0 (Android 15; Mobile; rv:140.0) Gecko/140.0 Firefox/140.0"
	windowsEdge    = "Mozilla/5.0 (Windows NT 10.0; Win64; x64) AppleWebKit/537.36 Chrome/140.0 Safari/537.36 Edg/140.0"
	linuxFirefox   = "Mozilla/5.0 (X11; Linux x86_64; rv:140.0) Gecko/20100101 Firefox/140.0"
)

// TestWhoGetsACodeInTheManifest checks that each browser whose installed apps start with empty storage gets a code, and
// that a manifest with a code is stored nowhere.
func TestWhoGetsACodeInTheManifest(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	for _, row := range []struct {
		name, agent string
		code        bool
	}{
		{"iPhone, Safari", iPhoneSafari, true},
		{"iPhone, Chrome", iPhoneChrome, true},
		{"iPhone, Firefox", iPhoneFirefox, true},
		{"an old iPad", oldIPad, true},
		{"an iPad that says Macintosh, or a Mac", macOrIPad, true},
		{"an iPad that says Macintosh, Firefox", iPadFirefox, true},
		{"Mac, Chrome", macChrome, false},
		{"Mac, Firefox", macFirefox, false},
		{"Android, Chrome", androidChrome, false},
		{"Android, Firefox", androidFirefox, false},
		{"Windows, Edge", windowsEdge, false},
		{"Linux, Firefox", linuxFirefox, false},
		{"nothing said", "", false},
	} {
		t.Run(row.name, func(t *testing.T) {
			for _, p := range []*phone{owner, helper} {
				p.agent = row.agent
				got := p.get("/manifest.webmanifest")
				require.Equal(t, 200, got.StatusCode)
				assert.Equal(t, "no-store", got.Header.Get("Cache-Control"))
				assert.Equal(t, "Cookie, User-Agent", got.Header.Get("Vary"))
				assert.Equal(t, row.code, strings.HasPrefix(startURL(t, p), "/j/open?i="), startURL(t, p))
			}
			stranger := s.stranger()
			stranger.agent = row.agent
			assert.Equal(t, "/", startURL(t, stranger), "without a session there is no code")
		})
	}
	assert.NotContains(t, s.shell.Precache(), "/manifest.webmanifest", "the service worker must not store it")
}

// TestPagesAskForTheManifestWithTheCookie checks the link without which the manifest is a stranger's.
func TestPagesAskForTheManifestWithTheCookie(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	for _, path := range []string{"/", "/jobs/reading", "/shell", "/scan", "/phone/devices"} {
		link := owner.get(path).doc(t).Find(`link[rel="manifest"]`)
		assert.Equal(t, "use-credentials", link.AttrOr("crossorigin", ""), path)
		assert.Equal(t, "/manifest.webmanifest", link.AttrOr("href", ""), path)
	}
	policy := owner.get("/").Header.Get("Content-Security-Policy")
	assert.Contains(t, policy, "manifest-src 'self'")
}

// TestShortcutsLeadSomewhere checks that each role can follow the shortcuts of its installed app.
func TestShortcutsLeadSomewhere(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	names := func(p *phone) []string {
		var manifest struct {
			Shortcuts []struct{ Name, URL string }
		}
		require.NoError(t, json.Unmarshal([]byte(p.get("/manifest.webmanifest").body), &manifest))
		var found []string
		for _, to := range manifest.Shortcuts {
			found = append(found, to.Name)
			assert.Equal(t, 200, p.get(to.URL).StatusCode, to.URL)
		}
		return found
	}
	assert.Equal(t, []string{"New job", "Calculators"}, names(owner))
	assert.Equal(t, []string{"Cards", "Pack list", "Calculators"}, names(helper))
	assert.Empty(t, names(s.stranger()))
	links, err := s.store.Links("reading")
	require.NoError(t, err)
	session, err := s.store.Session(owner.cookie.Value)
	require.NoError(t, err)
	require.NoError(t, s.store.RevokeLink(t.Context(), session, links[0].ID))
	assert.Empty(t, names(helper), "after the link has ended")
}
