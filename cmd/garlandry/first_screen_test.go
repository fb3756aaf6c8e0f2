package main

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// TestTheFirstScreenAnswersThreeThings measures the overview on a phone of 390 by 844 pixels. Above the tabs stand
// whether all will be done, what is next and what to decide; on a new job, the way to its first piece.
func TestTheFirstScreenAnswersThreeThings(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	p := newPhone(t, t.TempDir())
	p.limit = 2 * time.Minute // fixes take a while
	demo := p.firstJob(server)
	p.open(server.address + "/import")
	p.ready()
	p.fill(`#import textarea`, `{"garlandry":1,"brief":{"title":"Harvest supper"}}`)
	p.tap(`#import button.go`)
	p.until(`location.pathname.startsWith('/jobs/')`)
	fresh := p.text(`location.pathname`)
	for _, row := range []struct {
		name, at, way string // way is tapped after the page; "": nothing
		shown         []string
	}{
		{"the demo job", demo, "", []string{"#clock-answer .verdict", "#clock-answer .dayline", "#next-card .go",
			"#decisions summary"}},
		{"with the best fix", demo + "/clock?help=1", `#nav a[href="` + demo + `"]`, []string{"#clock-answer .verdict",
			"#clock-answer .dayline", "#clock-answer .buys", "#next-card .go", "#decisions summary"}},
		{"a new job", fresh, "", []string{"h1", ".empty .go"}},
	} {
		p.open(server.address + row.at)
		p.ready()
		if row.way != "" {
			p.until(`document.querySelector('#fixes')`)
			p.tap(row.way)
		}
		for _, selector := range row.shown {
			p.until(`document.querySelector('` + selector + `')`)
		}
		p.shot("first-" + row.name)
		for _, selector := range row.shown {
			assert.Equal(t, "", p.text(beyondTheFirstScreen(selector)), "%s: %s", row.name, selector)
		}
	}
	p.open(server.address + demo)
	p.ready()
	p.tap(`#decisions summary`)
	p.tap(`#decisions [data-act=choose] button, #decisions form button`)
	p.until(`document.querySelector('#decided .decision')`)
	assert.Equal(t, "false", p.text(`document.querySelector('#decided .decision').open`), "an answer folds its question")
}

// beyondTheFirstScreen lists where those elements of a selector lie that are not wholly between the left, right and
// upper edge of a phone and its tabs.
func beyondTheFirstScreen(selector string) string {
	return `[...document.querySelectorAll('` + selector + `')].filter(e => e.checkVisibility())
		.map(e => [e.textContent, e.getBoundingClientRect()])
		.filter(([, r]) => r.top < 0 || !r.height || r.left < 0 || r.right > 390 ||
			r.bottom > document.querySelector('.dock').getBoundingClientRect().top)
		.map(([what, r]) => what + ' from ' + r.top + ' to ' + r.bottom).join('; ')`
}
