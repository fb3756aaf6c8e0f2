package main

import (
	"testing"

	"garlandry/testdata/browsertest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// ownersPhone gives an owner's phone with the sample job, and the job's path.
func ownersPhone(t *testing.T) (p *phone, server *running, job string) {
	t.Helper()
	server = startServer(t, t.TempDir(), "", true)
	p = newPhone(t, t.TempDir(), browsertest.Optimised)
	p.join(server.link, "")
	p.sees("Reading room")
	p.ready()
	return p, server, p.text(`document.querySelector('a[href^="/jobs/"]').getAttribute('href')`)
}

// valueOf gives what stands in a field.
func (p *phone) valueOf(selector string) string {
	p.t.Helper()
	return p.text(`document.querySelector('` + selector + `')?.value`)
}

// drafts gives how many drafts this phone keeps.
func (p *phone) drafts() string {
	p.t.Helper()
	return p.text(`Object.keys(localStorage).filter((key) => key.startsWith('garlandry-draft ')).length`)
}

// TestTheLinkOfAnErrorKeepsWhatWasTyped follows the link of an error to its field, goes back and loads the page again.
func TestTheLinkOfAnErrorKeepsWhatWasTyped(t *testing.T) {
	inBrowser(t)
	p, server, job := ownersPhone(t)
	typed := func() string { return p.valueOf("[name=drive_min]") + " / " + p.valueOf("[name=notes]") }
	p.open(server.address + job + "/brief")
	p.ready()
	p.fill(`[name=drive_min]`, "a while")
	p.fill(`[name=notes]`, "Ring twice")
	p.tap(`#edit-brief button.go`)
	p.until(`document.querySelector('.wronglist a')`)
	p.text(`window.asked = 0, window.moves = 0, (() => {
		const post = Worker.prototype.postMessage;
		Worker.prototype.postMessage = function (message) {
			window.asked += message.type === 'get';
			post.call(this, message);
		};
		window.addEventListener('popstate', () => { window.moves++; });
	})()`)
	for range 2 {
		p.text(`document.querySelector('[name=notes]').focus()`)
		p.tap(`.wronglist a`)
		p.until(`document.activeElement.name === 'drive_min' && location.hash`)
	}
	p.leaves(`history.back()`)
	p.until(`!location.hash && window.moves > 0`)
	assert.Equal(t, "0", p.text(`window.asked`), "the page is not asked for anew")
	assert.Equal(t, "a while / Ring twice", typed(), "after the links")
	p.text(`window.before = true`)
	p.leaves(`location.reload()`)
	p.until(`!window.before`)
	p.ready()
	p.until(`document.querySelector('[name=notes]')?.value === 'Ring twice'`)
	assert.Equal(t, "a while / Ring twice", typed(), "after loading again")
	p.tap(`.wayback`)
	p.until(`location.pathname === '` + job + `' && !document.querySelector('#edit-brief')`)
	p.leaves(`history.back()`)
	p.until(`document.querySelector('#edit-brief')`)
	p.until(`document.querySelector('[name=notes]').value === 'Ring twice'`)
	assert.Equal(t, "a while / Ring twice", typed(), "after going back")
}

// TestADraftComesBack leaves a half-filled brief by a tab. The draft is there on coming back, says so, and goes when it
// is discarded or saved.
func TestADraftComesBack(t *testing.T) {
	inBrowser(t)
	p, server, job := ownersPhone(t)
	brief := server.address + job + "/brief"
	p.open(brief)
	p.ready()
	was := p.valueOf("[name=notes]")
	again := func() {
		t.Helper()
		p.tap(`#nav a`)
		p.until(`!document.querySelector('#edit-brief')`)
		p.leaves(`history.back()`)
		p.until(`document.querySelector('#edit-brief')`)
	}
	p.fill(`[name=notes]`, "Half a note")
	p.until(`document.querySelector('#edit-brief .foot').innerText.includes('Not saved yet')`)
	again()
	p.until(`document.querySelector('[name=notes]').value === 'Half a note'`)
	p.until(`/Your draft from .* is back/.test(document.querySelector('#edit-brief').innerText)`)
	p.until(`document.querySelector('#edit-brief .foot').innerText.includes('Not saved yet')`)
	p.tap(`#edit-brief [data-discard]`)
	assert.Equal(t, was, p.valueOf("[name=notes]"))
	assert.Equal(t, "0", p.drafts())
	assert.NotContains(t, p.text(`document.querySelector('#edit-brief').innerText`), "Not saved yet")

	p.fill(`[name=notes]`, "Typed again")
	p.open(brief) // a new page, drawn by the server first
	p.until(`document.querySelector('[name=notes]')?.value === 'Typed again'`)
	p.ready()
	p.until(`document.querySelector('[name=notes]').value === 'Typed again'`)
	p.text(`fetch('` + job + `/brief', { method: 'POST', body: new URLSearchParams([...new FormData(
		document.querySelector('#edit-brief'))].map(([name, value]) => [name, name === 'notes' ? 'Theirs' : value])) })`)
	again()
	p.wake()
	p.until(`document.querySelector('[name=notes]').value === 'Typed again'`)
	assert.Equal(t, was, p.valueOf(`[name="was.notes"]`), "what stood there when the draft was begun")
	p.tap(`#edit-brief button.go`)
	p.until(`document.querySelector('#edit-brief') === null || document.querySelector('.wronglist')`)
	if p.text(`document.querySelector('.wronglist') !== null`) == "false" {
		require.Equal(t, "0", p.drafts(), "a draft that was accepted is done with")
	}
}

// shadows are fields named like properties that scripts ask a form for.
const shadows = `['id', 'action', 'method', 'name', 'submit', 'reset', 'elements', 'dataset', 'children', 'childNodes',
	'attributes', 'firstChild', 'nextSibling', 'nodeType', 'nodeName', 'remove', 'closest', 'contains', 'hidden',
	'getAttribute', 'setAttribute', 'hasAttribute', 'removeAttribute', 'insertBefore', 'isEqualNode', 'isConnected',
	'querySelector', 'querySelectorAll', 'target', 'type', 'form', 'requestSubmit', 'append', 'matches'
	].map((name) => '<input type="hidden" name="' + name + '" value="x">').join('')`

// TestFieldsNamedLikePropertiesOfAForm saves a brief whose form has fields that stand in for every property a script
// might ask a form for.
func TestFieldsNamedLikePropertiesOfAForm(t *testing.T) {
	inBrowser(t)
	p, server, job := ownersPhone(t)
	p.open(server.address + job + "/brief")
	p.ready()
	p.text(`window.wrong = [], ['error', 'unhandledrejection'].forEach((name) => window.addEventListener(name,
		(event) => window.wrong.push(event.message || event.reason?.message)))`)
	p.fill(`[name=drive_min]`, "a while")
	p.fill(`[name=notes]`, "typed below it")
	p.text(`document.querySelector('#edit-brief').insertAdjacentHTML('beforeend', ` + shadows + `)`)
	p.tap(`#edit-brief button.go`)
	p.until(`document.querySelector('.wronglist a')`)
	assert.Equal(t, "a while / typed below it", p.valueOf("[name=drive_min]")+" / "+p.valueOf("[name=notes]"))
	p.text(`document.querySelector('#edit-brief').insertAdjacentHTML('beforeend', ` + shadows + `)`)
	p.fill(`[name=drive_min]`, "40")
	p.tap(`#edit-brief button.go`)
	p.until(`document.querySelector('#flash > *')`)
	assert.Equal(t, "[]", p.text(`JSON.stringify(window.wrong)`))
}
