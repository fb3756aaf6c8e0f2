package main

import (
	"testing"
	"time"

	"garlandry/testdata/browsertest"
	"garlandry/testdata/long"

	"github.com/chromedp/cdproto/pwa"
	"github.com/chromedp/cdproto/target"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// installed has the browser install the app and returns its window, in the same profile as the phone's tabs.
func (p *phone) installed(server *running) *phone {
	p.t.Helper()
	known := map[target.ID]bool{}
	targets, err := chromedp.Targets(p.ctx)
	p.check(err)
	for _, at := range targets {
		known[at.TargetID] = true
	}
	id := server.address + "/" // from the manifest
	_, err = chromedp.CallBrowser(p.ctx, pwa.Install, pwa.InstallParams{ManifestID: id, InstallURLOrBundleURL: id})
	p.check(err)
	_, err = chromedp.CallBrowser(p.ctx, pwa.ChangeAppUserSettings,
		pwa.ChangeAppUserSettingsParams{ManifestID: id, DisplayMode: pwa.DisplayModeStandalone})
	p.check(err)
	_, err = chromedp.CallBrowser(p.ctx, pwa.Launch, pwa.LaunchParams{ManifestID: id})
	p.check(err)
	var window target.ID
	require.Eventually(p.t, func() bool {
		targets, err := chromedp.Targets(p.ctx)
		for _, at := range targets {
			if at.Type == "page" && !known[at.TargetID] && at.URL == id {
				window = at.TargetID
			}
		}
		return err == nil && window != ""
	}, 30*time.Second, 50*time.Millisecond, "the app's window does not open")
	ctx, cancel := chromedp.NewContext(p.ctx, chromedp.WithTargetID(window))
	p.t.Cleanup(cancel)
	p.check(chromedp.Do(ctx)) // without a limit: the window stays attached until the context of its first action ends
	app := &phone{t: p.t, browser: browsertest.Page(ctx), ctx: ctx}
	app.until(`document.documentElement.dataset.ready === 'yes'`)
	return app
}

// TestBrowserInstalledAppBesideATab checks that the installed app and a browser tab act as one phone: everything either
// confirms as saved arrives once.
func TestBrowserInstalledAppBesideATab(t *testing.T) {
	long.Test(t, "the installed app beside a tab")
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	profile, id, cards := ownerOf(t, server)
	require.GreaterOrEqual(t, len(cards), 2)
	app := profile.installed(server)
	assert.Equal(t, "true", app.text(`matchMedia('(display-mode: standalone)').matches`), "this is the app's own window")
	assert.Equal(t, "false", profile.text(`matchMedia('(display-mode: standalone)').matches`))
	for i, tab := range []*phone{app, profile} {
		tab.onEveryPage(overhears)
		tab.settle(server.address + cards[i])
	}
	assert.Equal(t, "true", app.text(`matchMedia('(display-mode: standalone)').matches`), "it still is")
	tabsLoseNothing(t, server, id, []*phone{app, profile}, 80, 16)
}
