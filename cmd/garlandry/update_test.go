package main

import (
	"fmt"
	"net/http"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// backInSight fires the event of a person returning to the page. A headless browser has no other tab to come from.
const backInSight = `document.dispatchEvent(new Event('visibilitychange'))`

// TestUpdateWaitsForATapInTheBrowser checks that a new version is offered but not applied while somebody works, and
// that applying it keeps typed text and waiting operations.
func TestUpdateWaitsForATapInTheBrowser(t *testing.T) {
	inBrowser(t)
	first, second := binary(t, "a"), binary(t, "b")
	dir := t.TempDir()
	server := startProcess(t, first, dir, "", "--demo")
	owner := visitor(t, server.link, "")
	job := anyJob(t, owner, server.address)
	at := server.address + "/jobs/" + job
	invited := invite(t, first, dir, server.address)
	p := newPhone(t, t.TempDir())
	p.join(invited, "")
	p.ready()
	p.until(`document.querySelector('#state').innerText.includes('hared')`)
	p.open(at + "/cards")
	p.ready()
	// Drawn by the core: the phone holds the job.
	p.until(`document.documentElement.dataset.waiting === '0' && location.search === ''`)
	old := p.text(`document.documentElement.dataset.build`)
	assert.Equal(t, "a", p.text(`getComputedStyle(document.documentElement).getPropertyValue('--edition')`))
	assert.Equal(t, "garlandry-"+old, p.promised(`caches.keys().then(k => k.join())`))

	server.stop()
	floor := tickAndType(t, p, at)

	again := startProcess(t, second, dir, server.host())
	require.Equal(t, server.address, again.address)
	p.text(backInSight)
	p.until(`!document.querySelector('#update').hidden`)
	p.sees("A new version is ready.")
	p.until(`document.documentElement.dataset.waiting === '0'`) // the tick has been sent
	p.shot("update-offered")
	assert.Equal(t, "yes", p.text(`window.samePage`), "the page must not reload by itself")
	assert.Equal(t, old, p.text(`document.documentElement.dataset.build`))
	assert.Equal(t, "Ribbon at half past, then the", p.text(`document.querySelector('#page [name=notes]').value`))

	p.tap(`#update [data-update]`)
	p.until(`window.samePage !== 'yes' && document.documentElement.dataset.build &&
			document.documentElement.dataset.build !== ` + fmt.Sprintf("%q", old))
	p.ready()
	p.until(`document.querySelector('#page [name=notes]').value === 'Ribbon at half past, then the'`)
	assert.Equal(t, floor, p.text(`document.querySelector('#page [name=floor]:checked').value`),
		"an unsaved choice stays as well")
	assert.Equal(t, "b", p.text(`getComputedStyle(document.documentElement).getPropertyValue('--edition')`))
	fresh := p.text(`document.documentElement.dataset.build`)
	assert.Equal(t, "garlandry-"+fresh, p.promised(`caches.keys().then(k => k.join())`), "the old version's cache is gone")
	p.text(`document.querySelector('#page [name=notes]').closest('form').requestSubmit()`)
	p.until(`location.pathname === '/jobs/` + job + `' && document.documentElement.dataset.waiting === '0'`)

	ticks, notes := ticksAndNotes(t, owner, again.address, job)
	assert.Equal(t, 1, ticks, "the tick that waited must arrive once")
	assert.Contains(t, notes, "Ribbon at half past, then the")

	again.stop()
	opensOffline(t, p, at, fresh)
	p.open(again.address + "/calc/clusters")
	p.ready()
	assert.Equal(t, "b", p.text(`getComputedStyle(document.documentElement).getPropertyValue('--edition')`))
}

// TestUpdateAtAColdStartInTheBrowser checks that a phone that is just being opened, with nothing typed and nothing
// waiting, applies a new version by itself.
func TestUpdateAtAColdStartInTheBrowser(t *testing.T) {
	inBrowser(t)
	first, second := binary(t, "a"), binary(t, "b")
	dir := t.TempDir()
	server := startProcess(t, first, dir, "", "--demo")
	p := newPhone(t, t.TempDir())
	p.join(server.link, "")
	p.ready()
	p.until(`document.querySelector('#state').innerText.includes('hared')`)
	old := p.text(`document.documentElement.dataset.build`)
	server.stop()
	p.open("about:blank")
	startProcess(t, second, dir, server.host())
	p.open(server.address + "/")
	p.until(
		`document.documentElement.dataset.build && document.documentElement.dataset.build !== ` + fmt.Sprintf("%q", old),
	)
	p.ready()
	p.sees("Reading room")
	assert.Equal(t, "b", p.text(`getComputedStyle(document.documentElement).getPropertyValue('--edition')`))
}

// ticksAndNotes returns how often the loading was ticked and the last notes stored in the brief.
func ticksAndNotes(t *testing.T, owner *http.Client, address, job string) (ticks int, notes string) {
	t.Helper()
	for _, r := range records(t, owner, address, job) {
		if r.Entity == "card/load" && r.Field == "done" {
			ticks++
		}
		if r.Entity == "brief" && r.Field == "notes" {
			notes = string(r.Value)
		}
	}
	return ticks, notes
}

// tickAndType ticks a card without signal and types into the brief without saving. It returns the chosen floor.
func tickAndType(t *testing.T, p *phone, at string) (floor string) {
	t.Helper()
	p.open(at + "/cards/load")
	p.ready()
	p.tap(`form:has([name=act][value=tick]):has([name=e][value="card/load"]) button`)
	p.until(`document.documentElement.dataset.waiting === '1'`)
	p.open(at + "/brief")
	p.ready()
	p.until(`document.documentElement.dataset.waiting === '1'`)
	p.text(`window.samePage = 'yes'`)
	p.fill(`#page [name=notes]`, "Ribbon at half past, then the")
	p.text(`document.querySelector('#page [name=floor]:not(:checked)').checked = true`)
	floor = p.text(`document.querySelector('#page [name=floor]:checked').value`)
	require.NotEqual(t, "carpet", floor)
	return floor
}

// opensOffline opens pages of a job without signal and checks that all are of one build.
func opensOffline(t *testing.T, p *phone, at, build string) {
	t.Helper()
	for _, path := range []string{"/cards", "/pack", "/counts", "/brief", "/pieces"} {
		p.open(at + path)
		p.ready()
		p.sees("Reading room")
		assert.Equal(t, build, p.text(`document.documentElement.dataset.build`), path)
	}
}
