package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestAPageThatComesBackTicks leaves a page, comes back to it as the browser kept it, and ticks a card.
func TestAPageThatComesBackTicks(t *testing.T) {
	inEngines(t, func(t *testing.T, start func() *phone) {
		server := startServer(t, t.TempDir(), "", true)
		p := start()
		p.join(server.link, "")
		p.sees("Reading room")
		p.ready()
		job := p.text(`[...document.querySelectorAll('a[href^="/jobs/"]')].map(a => a.getAttribute('href'))[0]`)
		require.True(t, strings.HasPrefix(job, "/jobs/"), job)
		p.open(server.address + job + "/cards")
		p.ready()
		p.open(server.address + "/calc")
		p.ready()
		p.leaves(`history.back()`)
		p.until(`location.pathname.endsWith('/cards')`)
		p.ready()
		p.tap(`#page form:has([name=act][value=tick]) button`)
		p.until(`document.querySelector('#page form:has([name=act][value=untick]), #flash form')`)
		p.until(`document.documentElement.dataset.waiting === '0'`)
	})
}
