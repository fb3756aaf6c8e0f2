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

// held is a phone with the demo job, behind its own line, with the card "look" open.
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

// tickHere ticks the open card and waits until the page shows it.
func (h *held) tickHere(name string) {
	h.t.Helper()
	h.tap(`#do-done-card-` + name + ` button`)
	h.until(`document.querySelector('form [name=act][value=untick]')`)
}

// clearStorage makes the browser delete IndexedDB, as it does when it needs room.
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

// TestBrowserStorageVanishesUnderThePage deletes the database under a running page without signal. Waiting operations
// go on waiting, are written again, survive a restart, and arrive once.
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
			h.typesNote(longText) // the core notices
			h.until(`document.body.innerText.includes('was cleared while the app was open')`)
			h.shots("cleared")
			state := h.text(`document.querySelector('#state').innerText`)
			assert.NotContains(t, state, "All")
			assert.NotContains(t, h.text(`document.body.innerText`), "You don’t have access")
			h.card("load")
			h.tickHere("load")
			h.card("look")
			assert.Contains(t, h.text(`document.querySelector('#page').innerText`), "Walk the room first",
				"the job must be readable without signal")
			h.line.good()
			h.text(`window.dispatchEvent(new Event('online'))`)
			h.until(`document.documentElement.dataset.waiting === '0'`)
			h.until(journaled + ` === 0`)
			h.arrived("look", "load")
			assert.Equal(t, 1, h.line.noted(t, h.reader, h.job, longText))
		})
	}
}

// TestBrowserStorageDroppedWhileClosed deletes the database while the app is closed. The page's journal restores stored
// operations that were not shared.
func TestBrowserStorageDroppedWhileClosed(t *testing.T) {
	h := newHeld(t)
	h.line.off()
	h.typesNote(longText)
	h.until(`document.documentElement.dataset.waiting === '1'`)
	h.tickHere("look")
	h.until(`document.documentElement.dataset.waiting === '2'`)
	require.Equal(t, "2", h.text(journaled), "the journal must keep what is not shared")
	h.open("about:blank")
	h.clearStorage()
	h.open(h.line.address + "/") // offline: the page calls nothing lost or shared
	h.until(`document.querySelector('#state').innerText.includes('wait')`)
	h.open("about:blank")
	h.clearStorage()
	h.line.good()
	h.open(h.line.address + "/jobs/" + h.job + "/cards/look")
	h.until(journaled + ` === 0`)
	h.arrived("look")
	assert.Equal(t, 1, h.line.noted(t, h.reader, h.job, longText))
}

// TestBrowserStorageFull checks a phone with full storage. With signal a tick arrives at once; without, it waits, the
// page says so, and it survives a restart of the page.
func TestBrowserStorageFull(t *testing.T) {
	h := newHeld(t, fault{hits: diskFile, how: "front", front: `{
		const put = IDBObjectStore.prototype.put;
		IDBObjectStore.prototype.put = function (...row) {
			if (self.diskFull) throw new DOMException('no room left', 'QuotaExceededError');
			return put.apply(this, row);
		};
	}`}) // Storage.overrideQuotaForOrigin has no effect here
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
	h.card("load") // the new worker has room
	h.until(journaled + ` === 0`)
	h.arrived("look", "load")
}

// TestBrowserWithoutIndexedDB checks a browser without IndexedDB, as in some private windows: the page warns, ticks go
// to the server, and without signal they wait on the page and in the journal.
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
	p.tap(`#do-done-card-look button`)
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

// diskFile matches the script that the worker uses for its storage.
func diskFile(r *http.Request) bool { return strings.HasSuffix(r.URL.Path, "/disk.js") }
