package main

import (
	"context"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
)

// TestBrowserStalledOrCutPage checks that the phone shows its own page within seconds if a page stalls or is cut off,
// and that it waits for a page that loads slowly but steadily.
func TestBrowserStalledOrCutPage(t *testing.T) {
	h := newHeld(t)
	share := "/jobs/" + h.job + "/share" // only the server renders it
	for _, how := range []string{"stall", "cut"} {
		h.line.set(fault{hits: func(r *http.Request) bool { return r.URL.Path == share }, how: how, bytes: 120})
		began := time.Now()
		ctx, cancel := context.WithTimeout(h.ctx, 12*time.Second)
		_ = chromedp.Do(ctx, chromedp.Navigate(h.line.address+share)) // the browser reports no end for such a page
		cancel()
		h.sees("No signal")
		took := time.Since(began)
		t.Logf("%s: the page that says so came after %v", how, took)
		assert.Less(t, took, 10*time.Second) // 4 s on an idle machine
		assert.Equal(t, 1, h.line.met(), "it is requested once")
		h.shots("cut-" + how)
		h.card("look")
	}
}

// TestBrowserTruncatedCore checks that a core that is cut off on the first visit is fetched again.
func TestBrowserTruncatedCore(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	l := newLine(t, server)
	p := newPhone(t, t.TempDir())
	l.set(fault{hits: coreFile, how: "cut", bytes: 100_000, once: true})
	p.join(l.link, "")
	p.until(`['yes', 'no'].includes(document.documentElement.dataset.ready)`) // the page to join by has no core
	assert.Equal(t, "yes", p.text(`document.documentElement.dataset.ready`))
}

// TestBrowserTruncatedScript checks that a script that is cut off on the first visit loads when the page is reloaded.
func TestBrowserTruncatedScript(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	l := newLine(t, server)
	p := newPhone(t, t.TempDir())
	l.set(
		fault{hits: func(r *http.Request) bool { return strings.HasSuffix(r.URL.Path, "/journal.js") }, how: "cut",
			bytes: 300, once: true},
	)
	p.open(l.address + "/")
	p.until(`document.documentElement.dataset.ready === 'none'`)
	p.until(`sessionStorage.getItem('garlandry-again') === null`)
	assert.Equal(t, 1, l.met())
}
