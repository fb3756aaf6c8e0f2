package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The job file's address opened without signal hands out the file and shows the job; it does not stay on the bare page.
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

// The join page begins with the name that the link was made for; what is typed over it is what the helper goes by.
func TestJoinBeginsWithTheLinksName(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	owner := newPhone(t, t.TempDir())
	owner.join(server.link, "")
	owner.ready()
	owner.until(`document.querySelector('a[href^="/jobs/"]')`)
	job := owner.text(`document.querySelector('a[href^="/jobs/"]').getAttribute('href')`)
	owner.open(server.address + job)
	owner.ready()
	owner.tap(`a[href="` + job + `/share"]`) // with signal, the core leaves Share to the server
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
