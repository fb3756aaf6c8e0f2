package main

import (
	"net/http"
	"testing"

	"github.com/stretchr/testify/assert"
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
	join := func(name string) string { return freshLink(t, owner, l.address, id, name, "helper") }

	first := newPhone(t, t.TempDir())
	l.set(fault{hits: func(r *http.Request) bool { return r.URL.Path == "/sw.js" }, how: "hang"})
	first.join(join("Ines"), "Ines")
	first.until(`document.querySelector('#offline')?.innerText.includes('Getting ready')`)
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

	l.set(fault{hits: func(r *http.Request) bool { return r.URL.Path == "/shell" }, how: "500"})
	half := newPhone(t, t.TempDir()) // the service worker never gets all of its files
	half.join(join("Cleo"), "Cleo")
	half.until(`document.querySelector('#offline')?.innerText.includes('Getting ready')`)
	assert.Equal(t, "false", half.text(`document.querySelector('#offline').innerText.includes('Ready to')`))
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
