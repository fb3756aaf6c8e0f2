package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// toastSays waits for the toast's words, and checks that they are in view.
func (p *phone) toastSays(words string) {
	p.t.Helper()
	p.until(`document.getElementById('flash').innerText.trim() === '` + words + `'`)
	assert.Equal(p.t, "true", p.text(inView+`(document.querySelector('#flash > *'))`), words)
}

// TestCopyingALinkSaysSo copies a link where the browser lets it, where it has only the older way, and where it refuses
// both. Each time the toast says what is so. A button that cannot work is not shown.
func TestCopyingALinkSaysSo(t *testing.T) {
	inBrowser(t)
	p, server, job := ownersPhone(t)
	p.onEveryPage(`window.copied = []; window.older = true;
		Object.defineProperty(navigator, 'clipboard', { configurable: true, value: {
			writeText: (text) => { window.copied.push('new ' + text); return Promise.resolve(); } } });
		document.execCommand = (name) => { window.copied.push(name + ' ' + getSelection()); return window.older; };
		navigator.share = undefined;`)
	p.open(server.address + job + "/share")
	p.ready()
	p.fill(`#share-new [name=name]`, "Ines")
	p.tap(`#share-new button[type=submit]`)
	p.until(`document.querySelector('#fresh-url') && !document.querySelector('[data-copy]').hidden`)
	p.ready()
	link := p.valueOf("#fresh-url")
	assert.Equal(t, "true", p.text(`document.querySelector('[data-share]').hidden`), "there is nothing to send it with")
	copies := func(says, did string) {
		t.Helper()
		p.text(`window.copied = [], document.getElementById('flash').replaceChildren(),
			document.querySelector('[data-copy]').focus()`)
		p.tap(`[data-copy]`)
		p.toastSays(says)
		assert.Equal(t, did+" "+link, p.text(`window.copied.join()`))
	}
	copies("Copied.", "new")
	p.text(`Object.defineProperty(navigator, 'clipboard', { value: undefined })`)
	copies("Copied.", "copy")
	assert.Equal(t, "true", p.text(`document.activeElement.matches('[data-copy]')`), "the focus stays on the button")
	p.text(`window.older = false`)
	copies("Copy it by hand.", "copy")
	assert.Equal(t, link, p.text(`(f => f.value.slice(f.selectionStart, f.selectionEnd))(document.activeElement)`),
		"the link is marked, to be copied")
}

// TestSharingAndTheLookAnswer presses Share now when all is shared, and where there is no signal, and picks a look.
func TestSharingAndTheLookAnswer(t *testing.T) {
	inBrowser(t)
	server := newLine(t, startServer(t, t.TempDir(), "", true))
	p := newPhone(t, t.TempDir())
	p.firstJob(server.running)
	p.open(server.address + "/phone")
	p.ready()
	p.until(`document.querySelector('#stands').innerText.startsWith('All shared')`)
	p.tap(`[data-sync]`)
	p.toastSays("All shared just now")
	server.off()
	p.tap(`[data-sync]`)
	p.until(`document.getElementById('flash').innerText.startsWith('No signal.')`)
	pressed := `[...document.querySelectorAll('[data-theme-set][aria-pressed=true]')].map((b) => b.innerText).join()`
	assert.Equal(t, "As the phone", p.text(pressed))
	p.tap(`[data-theme-set=dark]`)
	assert.Equal(t, "Dark", p.text(pressed))
	p.text(`window.dispatchEvent(new Event('focus'))`)
	p.tap(`#nav a`)
	p.until(`location.pathname !== '/phone'`)
	p.leaves(`history.back()`)
	p.until(`document.querySelector('[data-theme-set=dark]')?.getAttribute('aria-pressed') === 'true'`)
}
