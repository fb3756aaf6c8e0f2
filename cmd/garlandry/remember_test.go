package main

import (
	"strings"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
)

// tapAtOnce adds five as soon as the button is on the page, and records whether the core was ready by then.
const tapAtOnce = `(() => {
	const look = () => {
		const button = document.querySelector('form:has([name=act][value=add]):has([name=n][value="5"]) button');
		if (!button) return setTimeout(look, 1);
		window.tappedWhen = document.documentElement.dataset.ready || 'not yet';
		button.click();
	};
	look();
})()`

// TestRememberedPageBeforeTheCoreInTheBrowser checks that a page reopened without signal appears before the core has
// started, that a tap on it counts once, and that its links work.
func TestRememberedPageBeforeTheCoreInTheBrowser(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	p := newPhone(t, t.TempDir())
	p.join(server.link, "")
	p.ready()
	p.until(`document.querySelector('a[href^="/jobs/"]')`)
	job := p.text(`document.querySelector('a[href^="/jobs/"]').getAttribute('href')`)
	p.open(server.address + job + "/cards")
	p.ready()
	card := p.text(`document.querySelector('a[href*="/cards/make/"]').getAttribute('href')`)
	p.open(server.address + card)
	p.ready()
	p.until(`document.documentElement.dataset.waiting === '0'`)
	p.until(`Object.keys(localStorage).some(key => key === 'garlandry-page ' + location.pathname)`)
	server.stop()

	_, err := chromedp.Call(p.ctx, page.AddScriptToEvaluateOnNewDocument,
		page.AddScriptToEvaluateOnNewDocumentParams{Source: tapAtOnce})
	p.check(err)
	p.open(server.address + card)
	p.ready()
	assert.Equal(t, "not yet", p.text(`window.tappedWhen`))
	p.until(shows(5))
	p.until(`document.documentElement.dataset.waiting === '1'`)
	assert.False(t, strings.Contains(p.text(`localStorage.getItem('garlandry-page ' + location.pathname)`), `"state"`),
		"the sync state must not be remembered")

	p.text(`localStorage.setItem('garlandry-role', 'helper')`)
	startServer(t, server.dir, server.host(), false)
	p.open(server.address + job + "/share")
	p.until(`localStorage.getItem('garlandry-role') === 'owner'`)
	assert.Equal(
		t,
		"0",
		p.text(
			`Object.keys(localStorage).filter(key => key.startsWith('garlandry-page ') && key.includes('/cards/')).length`,
		),
		"another role's pages are dropped",
	)
}
