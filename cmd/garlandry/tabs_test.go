package main

import (
	"fmt"
	"net/http"
	"strings"
	"testing"
	"time"

	"garlandry/app/job"
	wire "garlandry/app/sync"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestTwoTabsInTheBrowser checks that two tabs of one profile act as one phone: each shows the other's changes, one
// listens for news, the other takes over when it closes, and the server gets everything once.
func TestTwoTabsInTheBrowser(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	profile := newPhone(t, t.TempDir()) // its first tab keeps the browser open
	profile.join(server.link, "")
	profile.ready()
	profile.until(`document.querySelector('a[href^="/jobs/"]')`)
	id := profile.text(`document.querySelector('a[href^="/jobs/"]').getAttribute('href').split('/')[2]`)
	at := server.address + "/jobs/" + id
	tomasz := visitor(t, linkFor(profile, at, "Tomasz"), "Tomasz")
	profile.open("about:blank")

	first := profile.tab()
	firstStreams := first.streams()
	first.open(at + "/cards")
	first.ready()
	card := first.text(`document.querySelector('a[href*="/cards/make/"]').getAttribute('href')`)
	entity := "card/" + card[strings.Index(card, "/cards/")+len("/cards/"):]
	first.open(server.address + card)
	first.ready()
	leads := `navigator.locks.query().then(q => q.held.filter(l => l.name === 'garlandry-news').length + ' ' +
		q.pending.filter(l => l.name === 'garlandry-news').length)`
	assert.Equal(t, "1 0", first.promised(leads))
	second := profile.tab()
	secondStreams := second.streams()
	second.open(server.address + card)
	second.ready()
	assert.Equal(t, "1 1", second.promised(leads), "one tab listens for news, the other waits")
	assert.Positive(t, firstStreams())
	assert.Zero(t, secondStreams())

	first.tap(`form:has([name=act][value=add]):has([name=n][value="5"]) button`)
	second.until(shows(5))
	second.tap(`form:has([name=act][value=add]):has([name=n][value="2"]) button`)
	first.until(shows(7))
	for _, tab := range []*phone{first, second} {
		tab.until(`document.documentElement.dataset.waiting === '0'`)
	}
	server.stop()
	tapAdd(first, 1)
	second.until(shows(8))
	tapAdd(second, 1)
	first.until(shows(9))
	for _, tab := range []*phone{first, second} {
		tab.until(`document.documentElement.dataset.waiting === '2'`)
	}
	again := startServer(t, server.dir, server.host(), false)

	first.close()
	second.until(`document.documentElement.dataset.waiting === '0'`)
	require.Eventually(t, func() bool { return second.promised(leads) == "1 0" && secondStreams() > 0 }, 30*time.Second,
		50*time.Millisecond, "the remaining tab must listen now")
	addTen(t, tomasz, again.address, id, entity)
	second.until(shows(19))

	owner := visitor(t, again.link, "")
	added := addedTo(t, owner, again.address, id, entity)
	assert.ElementsMatch(t, []int64{5, 2, 1, 1, 10}, added, "everything once")
	assert.Equal(t, "0", second.text(`document.documentElement.dataset.waiting`))
}

// shows returns an expression that is true if the page's large figure is n.
func shows(n int) string {
	return fmt.Sprintf(
		`document.querySelector('#doing .big b') && document.querySelector('#doing .big b').innerText === '%d'`, n,
	)
}

// addedTo returns the additions to a tally, in the server's order.
func addedTo(t *testing.T, owner *http.Client, address, id, entity string) (added []int64) {
	t.Helper()
	for _, r := range records(t, owner, address, id) {
		if r.Entity == entity && r.Kind == job.Add {
			added = append(added, r.Delta)
		}
	}
	return added
}

// addTen adds ten to a tally from another phone.
func addTen(t *testing.T, helper *http.Client, address, id, entity string) {
	t.Helper()
	op := job.Op{ID: newID(), Device: "tomaszphone", Number: 1, Version: 1, Kind: job.Add, Entity: entity,
		Delta: 10, Wall: time.Now().UnixMilli()}
	answer, status, err := exchange(helper, address, id,
		wire.Request{Device: op.Device, Now: op.Wall, Ops: []job.Op{op}})
	require.NoError(t, err)
	require.Equal(t, 200, status)
	require.Equal(t, wire.OK, answer.Acks[0].Result, answer.Acks[0].Why)
}

// linkFor makes a helper's link on the Share page and returns it.
func linkFor(owner *phone, at, name string) string {
	owner.open(at + "/share")
	owner.fill(`#share-new [name=name]`, name)
	owner.tap(`#share-new button[type=submit]`)
	owner.until(`document.querySelector('#fresh-url')`)
	return owner.text(`document.querySelector('#fresh-url').value`)
}
