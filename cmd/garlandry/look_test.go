package main

import (
	"strings"
	"testing"

	"garlandry/testdata/long"

	"github.com/stretchr/testify/assert"
)

// looks holds the surface and ink colour of each theme, from the style sheet's tokens.
var looks = map[string]string{
	"light": "rgb(250, 246, 240) rgb(28, 25, 22)",
	"dark":  "rgb(23, 21, 19) rgb(246, 240, 232)",
	"sun":   "rgb(255, 255, 255) rgb(0, 0, 0)",
}

// looksLike waits until the page's body has the theme's colours.
func (p *phone) looksLike(look, where string) {
	p.t.Helper()
	assert.Equal(p.t, looks[look],
		p.text(`getComputedStyle(document.body).backgroundColor + ' ' + getComputedStyle(document.body).color`), where)
}

// TestLooksInTheBrowser checks that pages follow the system's light or dark setting, that a theme chosen on the phone
// page overrides it, and that the choice survives a reload, with and without signal.
func TestLooksInTheBrowser(t *testing.T) {
	long.Test(t, "every theme, chosen and kept")
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	p := newPhone(t, t.TempDir())
	p.join(server.link, "")
	p.ready()
	p.sees("Reading room")
	p.until(`document.querySelector('#state').innerText.includes('hared')`)
	p.until(`document.querySelector('a[href^="/jobs/"]')`)
	at := server.address + p.text(`document.querySelector('a[href^="/jobs/"]').getAttribute('href')`)
	visit := func(address string) {
		p.open(address)
		p.ready()
	}
	both := func(light, dark, where string) {
		p.prefers("dark")
		p.looksLike(dark, where+", the system is dark")
		p.prefers("light")
		p.looksLike(light, where+", the system is light")
	}
	choose := func(look string) {
		visit(server.address + "/phone")
		p.tap(`[data-theme-set="` + look + `"]`)
	}
	signal := func(where string) {
		choose("")
		both("light", "dark", "nothing chosen"+where)
		for _, look := range []string{"sun", "dark", "light"} {
			choose(look)
			both(look, look, look+" is chosen"+where)
			visit(server.address + "/phone")
			both(look, look, look+" after a reload"+where)
			visit(at + "/cards")
			both(look, look, look+" on another page"+where)
			p.shot("look-" + look + strings.ReplaceAll(where, " ", "-"))
		}
	}
	both("light", "dark", "at first")
	signal("")
	server.stop()
	visit(at + "/pack")
	both("light", "light", "chosen with signal, opened without")
	signal(" without signal")
	choose("sun")
	startServer(t, server.dir, server.host(), false)
	visit(at + "/cards")
	both("sun", "sun", "chosen without signal, opened with")
}
