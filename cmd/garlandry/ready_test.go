package main

import (
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// promises makes the browser promise to keep the storage, once it is asked.
const promises = `Object.defineProperty(navigator.storage, 'persist',
		{ value: async () => { window.asked = true; return true } });
	Object.defineProperty(navigator.storage, 'persisted', { value: async () => false })`

// TestBrowserSaysWhetherItIsReady checks the sign whether a phone can leave for a place without signal: on its way,
// ready, refused by the browser, and impossible over plain http.
func TestBrowserSaysWhetherItIsReady(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	owner := visitor(t, server.link, "")
	id := anyJob(t, owner, server.address)
	l := newLine(t, server)
	join := func(name string) string { // by the line: the server names its own address
		return strings.Replace(freshLink(t, owner, server.address, id, name, "helper"), server.address, l.address, 1)
	}

	first := newPhone(t, t.TempDir())
	l.set(fault{hits: func(r *http.Request) bool { return r.URL.Path == "/shell" }, how: "500"})
	first.join(join("Ines"), "Ines")
	first.until(`document.querySelector('#offline')?.innerText.includes('Getting ready')`)
	require.Eventually(t, func() bool { return l.met() > 0 }, 30*time.Second, 10*time.Millisecond,
		"the service worker asks for all of its files")
	assert.Equal(t, "false", first.text(`document.querySelector('#offline').innerText.includes('Ready to')`))
	l.good()
	first.open(l.address + "/jobs/" + id + "/next")
	first.until(`document.querySelector('#offline')?.innerText.includes('Ready to work without signal')`)
	l.off()
	first.open(l.address + "/jobs/" + id + "/next")
	first.sees("Ready to work without signal")
	first.sees("Ines, next for you") // and it is
	l.good()

	refused := newPhone(t, t.TempDir())
	refused.onEveryPage(`navigator.serviceWorker.register = async () => { throw new Error('refused') }`)
	refused.join(join("Bea"), "Bea")
	refused.until(`document.querySelector('#offline')?.innerText.includes('won’t keep the app')`)
}

// TestBrowserIsAskedToKeepTheStorage checks that the page asks the browser after the first tick, once, and that "This
// phone" says what came of it.
func TestBrowserIsAskedToKeepTheStorage(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	owner := visitor(t, server.link, "")
	id := anyJob(t, owner, server.address)
	p := newPhone(t, t.TempDir())
	p.onEveryPage(promises)
	p.join(freshLink(t, owner, server.address, id, "Ines", "helper"), "Ines")
	p.ready()
	assert.Equal(t, "undefined", p.text(`window.asked`), "nobody is asked before there is something to keep")
	p.tap(`#page form:has([name=act]) button`)
	p.until(`window.asked`)
	p.tap(`a[href="/phone"]`)
	p.sees("The browser has promised to keep this.")
}

// TestBrowserIsAskedToKeepTheStorageWithoutTheCore checks that the first tick asks also where the server takes it.
func TestBrowserIsAskedToKeepTheStorageWithoutTheCore(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	owner := visitor(t, server.link, "")
	link := freshLink(t, owner, server.address, anyJob(t, owner, server.address), "Ines", "helper")
	l := newLine(t, server)
	l.set(fault{hits: coreFile, how: "500"})
	p := newPhone(t, t.TempDir())
	p.onEveryPage(promises)
	p.join(strings.Replace(link, server.address, l.address, 1), "Ines")
	p.until(`document.documentElement.dataset.ready === 'no'`)
	assert.Equal(t, "undefined", p.text(`window.asked`))
	p.tap(`#page form:has([name=act]) button`)
	p.until(`window.asked`)
}
