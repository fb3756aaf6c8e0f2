package main

import (
	"testing"

	"garlandry/testdata/browsertest"

	"github.com/stretchr/testify/assert"
)

// TestBrowserFindsALineAsOneTypes searches the pack list: as one types with the core, by a press without it. A tick of
// what was found leaves the search as it is.
func TestBrowserFindsALineAsOneTypes(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	p := newPhone(t, t.TempDir(), browsertest.Optimised)
	at := p.firstJob(server) + "/pack"
	p.open(server.address + at)
	p.ready()
	p.until(`document.querySelector('#state').innerText.includes('hared')`) // the core has drawn the page
	all := p.text(`document.querySelectorAll('.tickrow').length`)
	p.text(`document.querySelector('#find').focus()`)
	p.fill(`#find`, "CORÁL 11")
	p.until(`document.querySelectorAll('.tickrow').length === 1`)
	assert.Equal(t, "find CORÁL 11", p.text(`document.activeElement.id + ' ' + document.activeElement.value`),
		"typing goes on")
	assert.Regexp(t, `^1 of \d+ shown$`, p.text(`document.querySelector('#found[role=status]').innerText`))
	p.until(`location.search === '?q=COR%C3%81L+11'`)
	p.tap(`.tickrow form.tick button`)
	p.until(`document.querySelector('.tickrow[data-on]')`)
	assert.Equal(t, "1 ?q=COR%C3%81L+11",
		p.text(`document.querySelectorAll('.tickrow').length + ' ' + location.search`), "the search is still on")
	p.fill(`#find`, "zebra")
	p.sees("Nothing found for “zebra”.")
	p.tap(`.found a`)
	p.until(`document.querySelectorAll('.tickrow').length === ` + all)

	server.stop()
	other := startServer(t, t.TempDir(), "", true)
	q := newPhone(t, t.TempDir())
	q.onEveryPage(`window.Worker = undefined`)
	q.join(other.link, "")
	q.until(`document.querySelector('a[href^="/jobs/"]')`)
	q.open(other.address + q.text(`document.querySelector('a[href^="/jobs/"]').getAttribute('href')`) + "/pack")
	q.until(`document.documentElement.dataset.ready === 'no'`)
	q.fill(`#find`, "coral 11")
	q.tap(`#find-form button`)
	q.until(`document.querySelectorAll('.tickrow').length === 1 && location.search.includes('q=coral+11')`)
}
