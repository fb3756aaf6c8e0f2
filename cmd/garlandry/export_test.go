package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestExportOpenedWithoutSignal checks that the job file's address, opened without signal, saves the file and then
// shows the job instead of an empty page.
func TestExportOpenedWithoutSignal(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	p := newPhone(t, t.TempDir())
	p.join(server.link, "")
	p.ready()
	p.sees("Reading room")
	p.until(`document.querySelector('#state').innerText.includes('hared')`)
	p.until(`document.querySelector('a[href^="/jobs/"]')`)
	job := p.text(`document.querySelector('a[href^="/jobs/"]').getAttribute('href')`)
	p.until(`navigator.serviceWorker.controller`)
	server.stop()
	p.open(server.address + job + "/export")
	p.until(
		`location.pathname === '` + job + `' && document.querySelector('#page h1').textContent === 'Reading room reopening'`,
	)
}

// TestJoinFormIsFilledWithTheLinksName checks that the join page suggests the link's name, and that the helper may
// change it.
func TestJoinFormIsFilledWithTheLinksName(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	owner := newPhone(t, t.TempDir())
	owner.join(server.link, "")
	owner.ready()
	owner.until(`document.querySelector('a[href^="/jobs/"]')`)
	job := owner.text(`document.querySelector('a[href^="/jobs/"]').getAttribute('href')`)
	owner.open(server.address + job)
	owner.ready()
	owner.tap(`a[href="` + job + `/share"]`) // with signal, the server renders Share
	owner.until(`document.querySelector('#share-new')`)
	owner.fill(`#share-new [name=name]`, "Zoë & co")
	owner.tap(`#share-new button[type=submit]`)
	owner.until(`document.querySelector('#fresh-url')`)
	link := owner.text(`document.querySelector('#fresh-url').value`)
	helper := newPhone(t, t.TempDir())
	helper.open(link)
	helper.until(`document.querySelector('#join [name=token]').value`)
	assert.Equal(t, "Zoë & co", helper.text(`document.querySelector('#join-name').value`))
	assert.Equal(t, "", helper.text(`location.hash`))
	helper.fill(`#join-name`, "Bea")
	helper.tap(`#join button[type=submit]`)
	helper.until(`location.pathname.endsWith('/next')`)
	helper.sees("Bea")
}
