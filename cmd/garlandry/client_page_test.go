package main

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// drawnBalloons is an expression for how many balloons of the large picture are on the screen, painted.
const drawnBalloons = `[...document.querySelectorAll('.cover svg circle[fill]')]
	.filter(c => c.getBoundingClientRect().width > 1 && getComputedStyle(c).fill.startsWith('url(')).length`

// TestBrowserShowsTheClientAPicture makes a link for the client and opens it in a fresh browser without scripts, and in
// the owner's own with the app on it. When the owner ends the link, both show nothing.
func TestBrowserShowsTheClientAPicture(t *testing.T) {
	inBrowser(t)
	owner, server, job := ownersPhone(t)
	owner.open(server.address + job + "/share")
	owner.tap(`#share-client summary`)
	owner.tap(`#share-client-new button[type=submit]`)
	owner.until(`document.querySelector('#fresh-url')`)
	_, path, found := strings.Cut(owner.text(`document.querySelector('#fresh-url').value`), "/look/")
	assert.True(t, found)
	link := server.address + "/look/" + path

	client := withoutScripts(t)
	client.open(link)
	client.sees("Reading room")
	client.until(drawnBalloons + ` > 200`)
	client.shot("client")
	client.scripts(true) // to look at what the browser was told to keep
	assert.Equal(t, "", client.text(`document.cookie`))
	assert.Equal(t, "0", client.promised(`navigator.serviceWorker.getRegistrations().then(all => String(all.length))`))
	for _, width := range []int{390, 1280} {
		wide := fmt.Sprintf(`document.documentElement.scrollWidth <= %d`, width)
		client.check(client.browser.Size(width, 844))
		client.until(wide)
		client.until(`document.querySelector('.cover svg').getBoundingClientRect().width > 0.6 * innerWidth`)
	}
	owner.open(link)
	owner.until(drawnBalloons + ` > 200`)
	assert.Equal(t, "null", owner.text(`String(document.querySelector('#nav'))`), "not the app's shell")

	owner.open(server.address + job + "/share")
	owner.tap(`#share-client form[action$="/end"] button`)
	owner.sees("Ended the link.")
	for _, p := range []*phone{client, owner} {
		p.open(link)
		p.sees("This link has ended")
		assert.Equal(t, "0", p.text(drawnBalloons))
	}
}
