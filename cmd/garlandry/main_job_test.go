package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestMainJobInTheBrowser runs the main workflow in every engine: an owner types a new job on a phone, a helper joins
// by link, both tick while the server is down, a page is killed and reopened without signal, and everything converges.
func TestMainJobInTheBrowser(t *testing.T) { inEngines(t, mainJob) }

func mainJob(t *testing.T, start func() *phone) {
	dir := t.TempDir()
	server := startServer(t, dir, "", true)
	host := server.host()
	owner := start()
	owner.join(server.link, "")
	owner.sees("Reading room")
	owner.ready()
	owner.shot("jobs")

	at := typeSupper(t, owner, server.address)
	owner.open(at + "/share")
	owner.fill(`#share-new [name=name]`, "Ines")
	owner.tap(`#share-new button[type=submit]`)
	owner.until(`document.querySelector('#fresh-url')`)
	owner.shot("share")
	link := owner.text(`document.querySelector('#fresh-url').value`)

	helper := start()
	helper.join(link, "Ines")
	helper.until(`location.pathname.endsWith('/next')`)
	helper.sees("Ines")
	helper.ready()
	helper.until(`document.querySelector('#state') && document.querySelector('#state').innerText.includes('hared')`)
	helper.shot("next")

	server.stop()
	card := countWithoutSignal(t, owner, helper, at)
	again := startServer(t, dir, host, false)
	require.Equal(t, server.address, again.address)
	for _, p := range []*phone{owner, helper} {
		p.open(server.address + card)
		p.ready()
		p.until(`document.documentElement.dataset.waiting === '0'`)
	}
	for _, p := range []*phone{owner, helper} {
		p.until(`/(^|\D)8(\D|$)/.test(document.querySelector('#page').innerText)`)
	}
	owner.open(at + "/history")
	owner.ready()
	owner.sees("Ines")
	assert.Equal(t, "0", owner.text(`document.documentElement.dataset.waiting`),
		"shared operations must not wait again after a restart")
	owner.shot("history")
	assert.NotContains(t, helper.text(`document.body.innerText`), "contact")
}

// countWithoutSignal counts on both phones while the server is down. It returns the card's path.
func countWithoutSignal(t *testing.T, owner, helper *phone, at string) (card string) {
	t.Helper()
	server, _, _ := strings.Cut(at, "/jobs/")
	owner.open(at + "/cards")
	owner.ready()
	owner.shot("cards-offline")
	card = owner.text(`[...document.querySelectorAll('a[href*="/cards/make/"]')].map(a => a.getAttribute('href'))[0]`)
	require.NotEqual(t, "undefined", card)
	owner.open(server + card)
	owner.ready()
	tapAdd(owner, 5)
	owner.shot("card-offline")
	helper.open(server + card)
	helper.ready()
	tapAdd(helper, 2)
	tapAdd(helper, 1)
	helper.open(at + "/pack")
	helper.ready()
	helper.tap(`#page form:has([name=act][value=pack]) button`)
	helper.until(`document.documentElement.dataset.waiting === '3'`)
	helper.open("about:blank") // the page is killed
	helper.open(at + "/pack")
	helper.ready()
	helper.sees("3 ticks wait on this phone")
	helper.shot("pack-offline")
	return card
}

// typeSupper fills in the form for a new job and returns the job's address.
func typeSupper(t *testing.T, owner *phone, address string) (at string) {
	t.Helper()
	owner.open(address + "/new")
	owner.ready()
	owner.fill(`#new-job [name=title]`, "Allotment supper")
	for _, typed := range [][2]string{{"date", "2027-06-12"}, {"in", "15:00"}, {"doors", "18:00"}} {
		owner.fill(`#new-job [name=`+typed[0]+`]`, typed[1])
		require.Equal(t, typed[1], owner.text(`document.querySelector('#new-job [name=`+typed[0]+`]').value`),
			"a field stays empty if it rejects the text")
	}
	owner.fill(`#new-job [name="piece.garland"]`, "12 ft")
	owner.fill(`#new-job [name="piece.columns"], #new-job [name="piece.column"]`, "2")
	owner.tap(`#new-job [name=colours][value=lemon]`)
	owner.tap(`#new-job [name=colours][value=leaf]`)
	owner.shot("new")
	owner.tap(`#new-job button.go, #new-job [type=submit]`)
	owner.until(`location.pathname.startsWith('/jobs/')`)
	owner.sees("Allotment supper")
	owner.sees("18:00")
	owner.shot("overview")
	job := owner.text(`location.pathname.split('/')[2]`)
	at = address + "/jobs/" + job
	owner.open(at + "/brief")
	owner.ready()
	require.Equal(t, "2027-06-12T15:00", owner.text(`document.querySelector('#page [name="in"]').value`),
		"the typed time, on that day")
	owner.open(at)
	owner.ready()
	owner.until(`document.documentElement.dataset.waiting === '0'`) // the server has the job
	return at
}

// tapAdd adds to the open card's tally and waits until it is stored.
func tapAdd(p *phone, n int) {
	p.t.Helper()
	before := p.text(`document.documentElement.dataset.waiting`)
	p.tap(map[int]string{
		1: `form:has([name=act][value=add]):has([name=n][value="1"]) button`,
		2: `form:has([name=act][value=add]):has([name=n][value="2"]) button`,
		5: `form:has([name=act][value=add]):has([name=n][value="5"]) button`}[n])
	p.until(`document.documentElement.dataset.waiting !== '` + before + `'`)
}
