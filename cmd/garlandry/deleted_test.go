package main

import (
	"testing"

	"garlandry/testdata/browsertest"
)

// TestBrowserDeletesAndRestoresAJob deletes the job from its first page and brings it back from the list of deleted
// ones. The phone drops it meanwhile, and has it whole again afterwards.
func TestBrowserDeletesAndRestoresAJob(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	p := newPhone(t, t.TempDir(), browsertest.Optimised)
	at := p.firstJob(server)
	p.open(server.address + at)
	p.ready()
	p.tap(`a[href="` + at + `/delete"]`)
	p.sees("Save the job file first")
	p.shot("delete")
	p.tap(`#delete-job button`)
	p.until(`location.pathname === '/deleted' && document.querySelector('#deleted li')`)
	p.shot("deleted")
	p.open(server.address + "/")
	p.ready()
	p.until(`!document.querySelector('a[href="` + at + `"]') && document.querySelector('a[href="/deleted"]')`)
	p.tap(`a[href="/deleted"]`)
	p.tap(`#deleted form button`)
	p.until(`location.pathname === '` + at + `'`)
	p.sees("Reading room")
	p.open(server.address + at + "/cards")
	p.ready()
	p.tap(`form.tick button`)
	p.until(`document.querySelector('form.tick [name=act][value=untick]')`)
}
