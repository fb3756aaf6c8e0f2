package main

import (
	"context"
	"encoding/json"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// typedCode shows a code on "This phone" and returns it.
func (p *phone) typedCode(at string) string {
	p.t.Helper()
	p.open(at + "/phone")
	p.ready()
	p.tap(`#home-screen form[action="/phone/code"] button`)
	p.until(`document.querySelector('#the-code b')`)
	return p.text(`document.querySelector('#the-code b').innerText`)
}

// typeCode types a code on the first page of an app whose storage is empty.
func (p *phone) typeCode(at, code string) {
	p.t.Helper()
	p.open(at + "/")
	p.tap(`#just-installed summary`)
	p.fill(`#typed-code`, code)
	p.tap(`#type-code button`)
}

// TestBrowserTypedCodeOpensTheInstalledApp checks in every engine that a code shown in the browser lets an app with
// empty storage in as the same person, for a helper and for the owner, and only once.
func TestBrowserTypedCodeOpensTheInstalledApp(t *testing.T) {
	inEngines(t, func(t *testing.T, start func() *phone) {
		server := startServer(t, t.TempDir(), "", true)
		owner := visitor(t, server.link, "")
		id := anyJob(t, owner, server.address)
		helper := start()
		helper.join(freshLink(t, owner, server.address, id, "Ines", "helper"), "Ines")
		helper.sees("Ines, next for you")
		code := helper.typedCode(server.address)

		app := start()
		app.typeCode(server.address, strings.ToLower(code))
		app.sees("Ines, next for you")
		app.ready()
		app.open(server.address + "/phone/devices")
		app.sees("This device")
		assert.NotContains(t, app.text(`document.querySelector('#this-device p').innerText`), "Unnamed")

		other := start()
		other.typeCode(server.address, code)
		other.until(`document.querySelector('#just-installed[open] #typed-code-error')`)
		answer, err := owner.PostForm(server.address+"/jobs/"+id+"/share/owner", nil)
		require.NoError(t, err)
		other.join(document(t, answer).Find("#fresh-url").AttrOr("value", ""), "Dora")
		other.until(`location.pathname === '/'`)
		mine := other.typedCode(server.address)
		second := start()
		second.typeCode(server.address, mine)
		second.until(`location.pathname === '/' && document.querySelector('a[href="/jobs/` + id + `"]')`)
	})
}

// manifest returns the manifest of the page as the browser fetches it.
func (p *phone) manifest() string {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, 40*time.Second)
	defer cancel()
	manifest, err := chromedp.Call(ctx, page.GetAppManifest, page.GetAppManifestParams{})
	p.check(err)
	assert.Empty(p.t, manifest.Errors)
	return manifest.Data
}

// TestBrowserFetchesTheManifestWithTheCookie checks that the browser sends its cookie when it fetches the manifest, on
// a page of the server and on the page that the service worker keeps, and that nothing stores the answer. An iPhone's
// start address in it then opens an app with empty storage as the same person.
func TestBrowserFetchesTheManifestWithTheCookie(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	owner := visitor(t, server.link, "")
	id := anyJob(t, owner, server.address)
	p := newPhone(t, t.TempDir())
	p.join(freshLink(t, owner, server.address, id, "Ines", "helper"), "Ines")
	p.sees("Ines, next for you")
	p.ready()
	at := server.address + "/jobs/" + id + "/next"
	for _, from := range []string{"the server", "the service worker"} {
		assert.Contains(t, p.manifest(), "/jobs/"+id+"/pack", "a helper's shortcut, on a page of %s", from)
		p.open(at)
		p.ready()
	}
	p.text(`caches.keys().then(async (names) => { window.kept = [];
		for (const name of names) {
			for (const request of await (await caches.open(name)).keys()) window.kept.push(request.url);
		} window.listed = true })`)
	p.until(`window.listed`)
	assert.Contains(t, p.text(`window.kept.join(' ')`), "/shell")
	assert.NotContains(t, p.text(`window.kept.join(' ')`), "manifest")

	_, err := chromedp.Call(p.ctx, emulation.SetUserAgentOverride, emulation.SetUserAgentOverrideParams{
		UserAgent: "Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X) AppleWebKit/605.1.15 Version/18.0 Safari/604.1"})
	p.check(err)
	p.open(at)
	var manifest struct {
		Start string `json:"start_url"`
	}
	require.NoError(t, json.Unmarshal([]byte(p.manifest()), &manifest))
	require.Contains(t, manifest.Start, "/j/open?i=")
	app := newPhone(t, t.TempDir())
	app.open(server.address + manifest.Start)
	app.sees("Open as Ines?")
	app.tap(`#join-open button`)
	app.sees("Ines, next for you")
	app.ready()
	app.open(server.address + manifest.Start) // each start
	app.sees("Ines, next for you")
}
