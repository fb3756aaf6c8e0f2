package main

import (
	"net/http"
	"testing"
	"time"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// noWorkers are the ways in which a browser may keep no app: it refuses, or it has no service workers at all.
var noWorkers = map[string]string{
	"refused": `navigator.serviceWorker.register = async () => { throw new Error('refused') }`,
	"none":    `delete Navigator.prototype.serviceWorker`,
}

// TestBrowserWithoutAServiceWorker plans a new job, ticks and takes it back where the browser keeps no app. The job
// says that it needs signal. While the page stays open, ticks wait for signal and arrive.
func TestBrowserWithoutAServiceWorker(t *testing.T) {
	for name, script := range noWorkers {
		t.Run(name, func(t *testing.T) {
			inBrowser(t)
			server := startServer(t, t.TempDir(), "", false)
			l := newLine(t, server)
			reader := visitor(t, server.ownerLink(t), "")
			p := newPhone(t, t.TempDir())
			p.onEveryPage(script)
			p.join(l.link, "")
			p.until(`location.pathname === '/' && document.documentElement.dataset.ready === 'yes'`)
			p.tap(`#page a[href="/new"]`)
			p.tap(`#new-job [name=build][value=garland]`)
			p.tap(`#new-job button.go`)
			p.until(`document.querySelector('#next-card')`)
			p.until(`document.querySelector('#offline')?.innerText.includes('Needs signal')`)
			id := p.text(`location.pathname.split('/')[2]`)
			p.tap(`#next-card a.button`)
			p.tap(`#page form:has([name=act][value=tick]) button`)
			p.until(toasts(": "))
			p.tap(`#flash form button`)
			p.until(toasts("Reopened"))
			p.until(`document.documentElement.dataset.waiting === '0'`)
			done := func() (n int) {
				for _, r := range records(t, reader, l.address, id) {
					if r.Field == "done" {
						n++
					}
				}
				return n
			}
			require.Equal(t, 2, done(), "the server has both")

			l.off()
			p.tap(`#page form:has([name=act][value=tick]) button`)
			p.until(`document.querySelector('#state').innerText.includes('1 tick waits')`)
			p.tap(`#nav a[href$="/pack"]`)
			p.until(at("/pack"))
			l.good()
			p.text(`window.dispatchEvent(new Event('online'))`)
			p.until(`document.documentElement.dataset.waiting === '0'`)
			assert.Equal(t, 3, done())
			p.open(l.address + "/jobs/" + id + "/cards/shop")
			p.until(`document.querySelector('#page form [name=act][value=untick]')`)
		})
	}
}

// storageRefused are the ways in which a page's own storage may refuse: a private mode that throws at the first touch,
// and one that is full.
var storageRefused = map[string]string{
	"private": `for (const name of ['localStorage', 'sessionStorage']) Object.defineProperty(window, name,
		{ get() { throw new DOMException('denied', 'SecurityError'); } });`,
	"full": `Storage.prototype.setItem = () => { throw new DOMException('no room left', 'QuotaExceededError'); };`,
}

// noDatabase makes a worker's database refuse to open, as the event of a request.
const noDatabase = `Object.defineProperty(self, 'indexedDB', { value: { open() {
	const request = { error: new DOMException('refused', 'UnknownError') };
	setTimeout(() => request.onerror());
	return request;
} } });`

// noteFaults collects what a page's scripts throw.
const noteFaults = `window.faults = [], ['error', 'unhandledrejection'].forEach((name) => addEventListener(name,
	(event) => window.faults.push(event.message || String(event.reason))))`

// asks counts the browser's questions whether to leave the page, and answers each with staying.
func (p *phone) asks() func() int {
	p.t.Helper()
	asked := make(chan struct{}, 100)
	require.NoError(p.t, chromedp.Listen(p.ctx, func(event any) {
		if _, is := event.(*page.EventJavascriptDialogOpening); !is {
			return
		}
		asked <- struct{}{}
		go func() {
			_, _ = chromedp.Call(p.ctx, page.HandleJavaScriptDialog, page.HandleJavaScriptDialogParams{Accept: false})
		}()
	}))
	return func() int { return len(asked) }
}

// TestBrowserWithNoStorageAtAll works where neither the database nor the page's own storage takes anything. Ticks go to
// the server, the state line says what that means, and the browser asks before typed text is lost.
func TestBrowserWithNoStorageAtAll(t *testing.T) {
	for name, script := range storageRefused {
		t.Run(name, func(t *testing.T) {
			inBrowser(t)
			server := startServer(t, t.TempDir(), "", true)
			l := newLine(t, server)
			reader := visitor(t, server.ownerLink(t), "")
			id := anyJob(t, reader, server.address)
			l.set(fault{hits: diskFile, how: "front", front: noDatabase})
			p := newPhone(t, t.TempDir())
			p.onEveryPage(script)
			p.onEveryPage(noteFaults)
			p.join(l.link, "")
			p.until(`document.documentElement.dataset.ready === 'no'`)
			p.open(l.address + "/jobs/" + id + "/cards/look?from=server")
			p.until(`document.querySelector('#state').innerText.includes('Not saved here')`)
			p.tap(`#do-done-card-look button`)
			p.until(toasts(": "))
			assert.Equal(t, 1, l.ticks(t, reader, id, "card/look"))
			p.tap(`#flash form button`)
			p.until(toasts("Reopened"))
			assert.Equal(t, 2, l.ticks(t, reader, id, "card/look"))
			p.asksBeforeTypedTextIsLost(l, reader, id)
			assert.Equal(t, "[]", p.text(`JSON.stringify(window.faults)`))
		})
	}
}

// asksBeforeTypedTextIsLost types into the brief and taps a tab. The browser asks, and the text stays and can be saved.
// The same holds for a form on its way without signal.
func (p *phone) asksBeforeTypedTextIsLost(l *line, reader *http.Client, id string) {
	p.t.Helper()
	asked := p.asks()
	p.open(l.address + "/jobs/" + id + "/brief?from=server")
	p.until(`document.documentElement.dataset.ready === 'no'`)
	p.check(p.browser.Tap(`#edit-brief [name=notes]`))
	p.do(chromedp.KeyEvent("Half a note "))
	p.until(`document.querySelector('#edit-brief .foot').innerText.includes('Not saved yet')`)
	asks := func(n int) {
		p.t.Helper()
		p.check(p.browser.Tap(`#nav a`))
		require.Eventually(p.t, func() bool { return asked() == n }, 20*time.Second, 50*time.Millisecond, "the browser asks")
	}
	asks(1)
	p.until(`document.querySelector('#edit-brief [name=notes]').value.includes('Half a note')`)
	l.set(fault{hits: func(r *http.Request) bool { return r.Method == http.MethodPost }, how: "drop"})
	p.check(p.browser.Tap(`#edit-brief button.go`))
	p.until(`document.querySelector('#state').innerText.includes('Stay on this page')`)
	asks(2) // while it is on its way
	l.set(fault{hits: diskFile, how: "front", front: noDatabase})
	p.text(`window.dispatchEvent(new Event('online'))`)
	p.until(toasts("aved"))
	assert.Equal(p.t, 1, l.noted(p.t, reader, id, "Half a note"))
	p.check(p.browser.Tap(`#nav a`))
	p.until(`location.pathname === '/jobs/` + id + `' || location.search !== '?from=server'`)
	assert.Equal(p.t, 2, asked(), "nothing is held any more")
}
