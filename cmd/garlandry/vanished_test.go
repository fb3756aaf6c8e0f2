package main

import (
	"net/http"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/storage"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// held is a phone that holds the demo job, on a line of its own, with the job's card "look" on the screen.
type held struct {
	*phone
	line   *line
	reader *http.Client
	job    string
}

func newHeld(t *testing.T, faults ...fault) *held {
	t.Helper()
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	h := &held{phone: newPhone(t, t.TempDir()), line: newLine(t, server), reader: visitor(t, server.ownerLink(t), "")}
	h.job = anyJob(t, h.reader, server.address)
	for _, f := range faults {
		h.line.set(f)
	}
	h.join(h.line.link, "")
	h.ready()
	h.card("look")
	h.until(
		`document.documentElement.dataset.waiting === '0' && document.querySelector('#state').innerText.includes('hared')`,
	)
	return h
}

// card opens a card of the job.
func (h *held) card(name string) {
	h.t.Helper()
	h.open(h.line.address + "/jobs/" + h.job + "/cards/" + name)
	h.ready()
}

// tickHere taps the tick of the card on the screen and waits until it shows.
func (h *held) tickHere(name string) {
	h.t.Helper()
	h.tap(`#do-tick-card-` + name + ` button`)
	h.until(`document.querySelector('form [name=act][value=untick]')`)
}

// clearStorage has the browser drop IndexedDB, as it does when it needs the room.
func (h *held) clearStorage() {
	h.t.Helper()
	_, err := chromedp.Call(h.ctx, storage.ClearDataForOrigin,
		storage.ClearDataForOriginParams{Origin: h.line.address, StorageTypes: "indexeddb"})
	h.check(err)
}

// arrived checks that the server has each tick once.
func (h *held) arrived(cards ...string) {
	h.t.Helper()
	for _, card := range cards {
		assert.Equal(h.t, 1, h.line.ticks(h.t, h.reader, h.job, "card/"+card), card)
	}
}

// A database that is deleted, or dropped by the browser, under a running page without signal: what waits goes on to
// wait, is written again, is there after a restart, and arrives once.
func TestBrowserStorageVanishesUnderThePage(t *testing.T) {
	for name, vanish := range map[string]func(*held){
		"deleted by a script": func(h *held) {
			h.promised(`new Promise((done) => { indexedDB.deleteDatabase('garlandry').onsuccess = () => done('') })`)
		},
		"dropped by the browser": func(h *held) { h.clearStorage() },
	} {
		t.Run(name, func(t *testing.T) {
			h := newHeld(t)
			h.line.off()
			h.tickHere("look")
			h.until(`document.documentElement.dataset.waiting === '1'`)
			vanish(h)
			h.typesNote(longText) // the core comes upon it
			h.until(`document.body.innerText.includes('was cleared while the app was open')`)
			h.shots("cleared")
			state := h.text(`document.querySelector('#state').innerText`)
			assert.NotContains(t, state, "All")
			assert.NotContains(t, h.text(`document.body.innerText`), "You don’t have access")
			h.card("load")
			h.tickHere("load")
			h.card("look")
			assert.Contains(t, h.text(`document.querySelector('#page').innerText`), "Walk the room first",
				"the job can be read without signal")
			h.line.good()
			h.text(`window.dispatchEvent(new Event('online'))`)
			h.until(`document.documentElement.dataset.waiting === '0'`)
			h.until(journaled + ` === 0`)
			h.arrived("look", "load")
			assert.Equal(t, 1, h.line.noted(t, h.reader, h.job, longText))
		})
	}
}

// A browser that drops the database while the app is closed: the page's journal brings back what was stored and not
// shared.
func TestBrowserStorageDroppedWhileClosed(t *testing.T) {
	h := newHeld(t)
	h.line.off()
	h.typesNote(longText)
	h.until(`document.documentElement.dataset.waiting === '1'`)
	h.tickHere("look")
	h.until(`document.documentElement.dataset.waiting === '2'`)
	require.Equal(t, "2", h.text(journaled), "the journal keeps what is not shared")
	h.open("about:blank")
	h.clearStorage()
	h.open(h.line.address + "/") // without signal: nothing is said to be lost or shared
	h.until(`document.querySelector('#state').innerText.includes('wait')`)
	h.open("about:blank")
	h.clearStorage()
	h.line.good()
	h.open(h.line.address + "/jobs/" + h.job + "/cards/look")
	h.until(journaled + ` === 0`)
	h.arrived("look")
	assert.Equal(t, 1, h.line.noted(t, h.reader, h.job, longText))
}

// A phone whose storage takes nothing more: with signal a tick arrives at once, without it waits and says so, also over
// a restart of the page.
func TestBrowserStorageFull(t *testing.T) {
	h := newHeld(t, fault{hits: diskFile, how: "front", front: `{
		const put = IDBObjectStore.prototype.put;
		IDBObjectStore.prototype.put = function (...row) {
			if (self.diskFull) throw new DOMException('no room left', 'QuotaExceededError');
			return put.apply(this, row);
		};
	}`}) // Storage.overrideQuotaForOrigin changes nothing here
	ctx, leave := h.worker()
	_, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`self.diskFull = true`))
	h.check(err)
	leave()
	h.tickHere("look")
	h.sees("could not be saved on this phone")
	h.until(`document.querySelector('#state').innerText.includes('Storage full')`)
	h.shots("full")
	h.until(journaled + ` === 0`)
	h.arrived("look")
	h.line.off()
	h.tap(`nav a[href$="/cards"]`)
	h.tap(`#row-list-card-load form button`)
	h.until(`document.querySelector('#state').innerText.includes('1 tick waits for signal')`)
	h.shots("full-waits")
	require.Equal(t, "1", h.text(journaled))
	h.open("about:blank")
	h.line.good()
	h.card("load") // its worker has room
	h.until(journaled + ` === 0`)
	h.arrived("look", "load")
}

// A browser without IndexedDB, as in some private windows: a warning, ticks go to the server, and without signal they
// wait on the page and in the journal.
func TestBrowserWithoutIndexedDB(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	l := newLine(t, server)
	reader := visitor(t, server.ownerLink(t), "")
	id := anyJob(t, reader, server.address)
	noDisk := fault{hits: diskFile, how: "front",
		front: `Object.defineProperty(self, 'indexedDB', {
			value: { open() { throw new DOMException('no storage here', 'InvalidStateError'); } } });`}
	l.set(noDisk)
	p := newPhone(t, t.TempDir())
	p.join(l.link, "")
	p.until(`document.documentElement.dataset.ready === 'no'`)
	p.open(l.address + "/jobs/" + id + "/cards/look?from=server")
	p.until(`document.querySelector('#state').innerText.includes('Not saved here')`)
	p.shots("keeps-nothing")
	p.tap(`#do-tick-card-look button`)
	p.until(`document.querySelector('form [name=act][value=untick]')`)
	assert.Equal(t, 1, l.ticks(t, reader, id, "card/look"))
	l.off()
	p.typesNote(longText)
	p.until(`document.querySelector('#state').innerText.includes('Saved here, waiting')`)
	assert.Equal(t, longText, p.text(`document.querySelector('#note-text').value`))
	l.set(noDisk)
	p.text(`window.dispatchEvent(new Event('online'))`)
	p.until(journaled + ` === 0`)
	assert.Equal(t, 1, l.noted(t, reader, id, longText))
}

// diskFile is the script by which the worker reaches its storage.
func diskFile(r *http.Request) bool { return strings.HasSuffix(r.URL.Path, "/disk.js") }
