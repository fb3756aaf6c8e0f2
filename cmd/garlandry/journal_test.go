package main

import (
	"fmt"
	"net/http"
	"strings"
	"testing"

	"garlandry/testdata/long"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// longText is a text that takes ten minutes to type.
var longText = strings.TrimSpace(strings.Repeat("The side door sticks; the ladder is in the hall. ", 60))

// noted counts a job's records that carry the text.
func (l *line) noted(t *testing.T, reader *http.Client, id, text string) int {
	t.Helper()
	n := 0
	for _, r := range records(t, reader, l.address, id) {
		if strings.Contains(string(r.Value), text) {
			n++
		}
	}
	return n
}

// ticks counts a job's records that tick a card.
func (l *line) ticks(t *testing.T, reader *http.Client, id, entity string) int {
	t.Helper()
	n := 0
	for _, r := range records(t, reader, l.address, id) {
		if r.Entity == entity && r.Field == "done" {
			n++
		}
	}
	return n
}

// journaled returns how many forms the page's journal holds.
const journaled = `Object.keys(localStorage).filter((key) => key.startsWith('garlandry-journal')).length`

// typesNote submits a note on the open card.
func (p *phone) typesNote(text string) {
	p.t.Helper()
	p.fill(`#note-text`, text)
	p.tap(`form:has(#note-text) button[type=submit]`)
}

// notSentYet checks the page while a form waits: the same address, the typed text, and a message that the form is
// waiting.
func (p *phone) notSentYet(at, text string) {
	p.t.Helper()
	p.until(`document.querySelector('#state').innerText.includes('Saved here, waiting')`)
	assert.Equal(p.t, at, p.text(`location.pathname`))
	assert.Contains(p.t, p.text(`document.querySelector('#note-text').value`), text)
	assert.NotEqual(p.t, "0", p.text(journaled))
}

// TestBrowserFormOverABadLineArrivesOnce submits a form over a bad network on a first visit, before the core runs. The
// form stays on the page and in the journal, the page says that it waits, and it arrives once, even if the page was
// closed and the app opened again.
func TestBrowserFormOverABadLineArrivesOnce(t *testing.T) {
	long.Test(t, "a form over nine kinds of bad networks")
	inBrowser(t)
	for _, row := range []struct {
		how    string
		closes bool
	}{{"hang", false}, {"drop", false}, {"500", false}, {"503", false}, {"swallow", false}, {"portal", false},
		{"hang", true}, {"503", true}, {"swallow", true}} {
		how, closes := row.how, row.closes
		t.Run(fmt.Sprintf("%s closes %v", how, closes), func(t *testing.T) {
			server := startServer(t, t.TempDir(), "", true)
			l := newLine(t, server)
			reader := visitor(t, server.link, "")
			id := anyJob(t, reader, server.address)
			at := "/jobs/" + id + "/cards/look"
			p := newPhone(t, t.TempDir())
			link := server.ownerLink(t)
			l.set(fault{hits: coreFile, how: "hang"})
			p.join(strings.Replace(link, server.address, l.address, 1), "")
			p.until(`document.querySelector('a[href^="/jobs/"]')`)
			p.open(l.address + at)
			l.set(fault{hits: both(coreFile, posts), how: how})
			text := longText + how
			p.typesNote(text)
			p.notSentYet(at, text)
			p.tap(`#do-done-card-look button`)
			p.until(journaled + ` === 2`)
			p.shots("waits-" + how)
			require.GreaterOrEqual(t, l.met(), 1)
			if closes {
				p.open("about:blank")
				l.good()
				p.open(l.address + at)
			} else {
				l.set(fault{hits: coreFile, how: "hang"})
				p.text(`window.dispatchEvent(new Event('online'))`)
			}
			p.until(journaled + ` === 0`)
			assert.Equal(t, 1, l.noted(t, reader, id, text))
			assert.Equal(t, 1, l.ticks(t, reader, id, "card/look"))
			p.until(`document.querySelector('form [name=act][value=untick]')`)
			assert.Contains(t, p.text(`document.querySelector('#note-text').value`), how)
			p.until(`!document.querySelector('#state').innerText.includes('Saved here, waiting')`)
		})
	}
}

// TestBrowserFormOfACoreThatStopsWaits checks that the outbox keeps the forms of a core that has stopped twice, and
// sends them when the network is back.
func TestBrowserFormOfACoreThatStopsWaits(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	l := newLine(t, server)
	reader := visitor(t, server.ownerLink(t), "")
	id := anyJob(t, reader, server.address)
	at := "/jobs/" + id + "/cards/look"
	p := newPhone(t, t.TempDir())
	p.join(l.link, "")
	p.ready()
	p.open(l.address + at)
	p.ready()
	p.until(`document.documentElement.dataset.waiting === '0'`)
	p.text(`document.documentElement.dataset.ready = 'waits'`)
	p.coreStops()
	p.until(`document.documentElement.dataset.ready === 'yes'`)
	p.coreStops()
	p.until(`document.documentElement.dataset.ready === 'no'`)
	l.off()
	p.typesNote(longText)
	p.notSentYet(at, longText)
	p.tap(`#do-done-card-look button`)
	p.until(journaled + ` === 2`)
	l.good()
	p.text(`window.dispatchEvent(new Event('online'))`)
	p.until(journaled + ` === 0`)
	assert.Equal(t, 1, l.noted(t, reader, id, longText))
	assert.Equal(t, 1, l.ticks(t, reader, id, "card/look"))
}

// TestBrowserFormThatTheServerRefuses checks that a refused form comes back with the typed text and the reason, and
// leaves the journal.
func TestBrowserFormThatTheServerRefuses(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	l := newLine(t, server)
	p := newPhone(t, t.TempDir())
	l.set(fault{hits: coreFile, how: "hang"})
	p.join(l.link, "")
	p.until(`document.querySelector('a[href^="/jobs/"]')`)
	at := p.text(`document.querySelector('a[href^="/jobs/"]').getAttribute('href')`) + "/brief"
	p.open(l.address + at)
	p.fill(`#page [name="title"]`, "")
	p.fill(`#page [name="venue"]`, "The old boathouse")
	p.tap(`#page form:has([name="title"]) button[type=submit]`)
	p.until(`document.querySelector('#page [name="title"]').getAttribute('aria-invalid') === 'true'`)
	assert.Equal(t, "The old boathouse", p.text(`document.querySelector('#page [name="venue"]').value`))
	assert.Equal(t, at, p.text(`location.pathname`))
	p.until(journaled + ` === 0`)
	l.good() // the core starts and does not change the form
	p.fill(`#page [name="title"]`, "Quayside supper")
	p.tap(`#page form:has([name="title"]) button[type=submit]`)
	p.until(`!location.pathname.endsWith('/brief') && document.body.innerText.includes('Quayside supper')`)
}
