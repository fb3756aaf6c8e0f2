package main

import (
	"net/http"
	"strings"
	"testing"

	"garlandry/testdata/browsertest"

	"github.com/stretchr/testify/assert"
)

// typesIntoBrief types into a field of the brief and waits until the draft is kept.
func (p *phone) typesIntoBrief(address, name, text string) {
	p.t.Helper()
	p.open(address + "/brief")
	p.ready()
	p.fill(`[name=`+name+`]`, text)
	p.until(`document.querySelector('#edit-brief .foot').innerText.includes('Not saved yet')`)
}

// TestDraftsGoWithTheirJobAndTheirOwner removes a job from the phone, deletes a job, and signs out. The drafts of each
// go with it, on every tab.
func TestDraftsGoWithTheirJobAndTheirOwner(t *testing.T) {
	inBrowser(t)
	p, server, job := ownersPhone(t)
	p.typesIntoBrief(server.address+job, "notes", "Half a note")
	p.open(server.address + "/calc/clusters")
	p.ready()
	assert.Equal(t, "1", p.drafts(), "the draft of the brief")

	p.open(server.address + job + "/remove")
	p.ready()
	p.tap(`#leave button`)
	p.sees("is not on this phone any more")
	p.until(`Object.keys(localStorage).filter((key) => key.startsWith('garlandry-draft ')).length === 0`)
	p.tap(`#off form button`)
	p.until(`!document.querySelector('#off')`)

	p.typesIntoBrief(server.address+job, "notes", "Half a note")
	p.open(server.address + job + "/delete")
	p.tap(`#delete-job button`)
	p.until(`location.pathname === '/deleted' && document.querySelector('#deleted li')`)
	p.until(`Object.keys(localStorage).filter((key) => key.startsWith('garlandry-draft ')).length === 0`)
	p.tap(`#deleted form button`)
	p.until(`location.pathname === '` + job + `'`)
	p.ready()

	p.typesIntoBrief(server.address+job, "notes", "Half a note")
	other := p.tab()
	other.open(server.address + job + "/brief")
	other.ready()
	other.until(`document.querySelector('[name=notes]').value === 'Half a note'`)
	p.open(server.address + "/phone/out")
	p.ready()
	p.tap(`#leave button`)
	p.sees("Signed out")
	other.until(`location.pathname === '/out'`)
	assert.Equal(t, "0", p.drafts())
}

// TestADraftGoesWhenTheJournalsFormArrives saves a brief without signal and without a core, and moves on. The draft
// goes once the server has the form, whatever page is on the screen then.
func TestADraftGoesWhenTheJournalsFormArrives(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	l := newLine(t, server)
	reader := visitor(t, server.ownerLink(t), "")
	id := anyJob(t, reader, server.address)
	p := newPhone(t, t.TempDir(), browsertest.Optimised)
	p.onEveryPage(`window.Worker = undefined`)
	p.join(l.link, "")
	p.sees("Reading room")
	at := l.address + "/jobs/" + id
	p.open(at + "/brief?from=server")
	p.until(`document.documentElement.dataset.ready === 'no'`)
	p.fill(`[name=notes]`, "Ring twice")
	l.set(fault{hits: func(r *http.Request) bool { return r.Method == http.MethodPost }, how: "drop"})
	p.tap(`#edit-brief button.go`)
	p.until(`document.querySelector('#state').innerText.includes('Saved here, waiting')`)
	p.open(at + "/cards?from=server")
	p.until(`document.querySelector('#state').innerText.includes('Saved here, waiting')`)
	assert.Equal(t, "1", p.drafts())
	l.good()
	p.text(`window.dispatchEvent(new Event('online'))`)
	p.until(journaled + ` === 0`)
	assert.Equal(t, "0", p.drafts())
	assert.Equal(t, 1, l.noted(t, reader, id, "Ring twice"))
}

// TestTwoTabsShareADraft types into one form in two tabs. Neither loses what it typed, a form saved in one leaves what
// the other typed, no tab replaces the other's text, and the note that a draft is back is said. The tabs have no core,
// so that only what is done here draws them anew.
func TestTwoTabsShareADraft(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	one := newPhone(t, t.TempDir(), browsertest.Optimised)
	one.onEveryPage(`window.Worker = undefined`)
	one.join(server.link, "")
	one.sees("Reading room")
	brief := server.address + one.text(`document.querySelector('a[href^="/jobs/"]').pathname`) + "/brief?from=server"
	two := one.tab()
	two.onEveryPage(`window.Worker = undefined`)
	opens := func(p *phone) {
		p.open(brief)
		p.until(`document.documentElement.dataset.ready === 'no'`)
	}
	opens(one)
	opens(two)
	// holds waits until both tabs see the draft: a browser tells its other tabs in its own time.
	holds := func(draft string) {
		t.Helper()
		for _, p := range []*phone{one, two} {
			p.until(`Object.keys(localStorage).filter((key) => key.startsWith('garlandry-draft '))
				.flatMap((key) => Object.entries(JSON.parse(localStorage.getItem(key)).typed)).map(([name, { now }]) =>
				name + '=' + now).sort().join(', ') === '` + draft + `'`)
		}
	}
	one.fill(`[name=notes]`, "Ring")
	holds("notes 1=Ring")
	two.fill(`[name=drive_min]`, "45")
	holds("drive_min 1=45, notes 1=Ring")
	one.fill(`[name=notes]`, "Ring twice")
	holds("drive_min 1=45, notes 1=Ring twice")
	one.tap(`#edit-brief button.go`)
	one.until(toasts("aved"))
	holds("drive_min 1=45") // what the other tab typed is not saved yet

	two.fill(`[name=notes]`, "Call first")
	holds("drive_min 1=45, notes 1=Call first")
	opens(one)
	one.until(`document.querySelector('[name=drive_min]').value === '45'`)
	one.until(`/^Your draft from .* is back\.$/.test(document.getElementById('say').textContent)`)
	one.fill(`[name=notes]`, "Ring thrice")
	holds("drive_min 1=45, notes 1=Ring thrice")
	two.promised(`import(new URL('drafts.js', document.querySelector('script[type=module]').src))
		.then((drafts) => drafts.giveBack())`) // as whenever the page is drawn anew
	assert.Equal(t, "Call first", two.valueOf("[name=notes]"), "the other tab's text replaces nothing")
}

// TestADraftOfAFormThatOnlyTheServerAnswers keeps the name typed for a new link over a visit to another page, and lets
// it go once the link is made.
func TestADraftOfAFormThatOnlyTheServerAnswers(t *testing.T) {
	inBrowser(t)
	p, server, job := ownersPhone(t)
	share := server.address + job + "/share"
	p.open(share)
	p.until(`document.querySelector('#share-new')`)
	p.ready()
	p.fill(`#share-new [name=name]`, "Ines")
	assert.Equal(t, "1", p.drafts())
	p.tap(`#nav a[href$="/cards"]`)
	p.until(at("/cards"))
	p.open(share)
	p.until(`document.querySelector('#share-new [name=name]')?.value === 'Ines'`)
	assert.Equal(t, "true", p.text(`document.querySelector('#new-link').open`), "what is folded is opened")
	p.tap(`#share-new button[type=submit]`)
	p.until(`document.querySelector('#fresh-url')`)
	p.ready()
	assert.Equal(t, "0", p.drafts())
	assert.True(t, strings.Contains(p.valueOf("#fresh-url"), "/j#"))
	assert.Equal(t, "", p.valueOf("#share-new [name=name]"))
}
