package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestTheFirstScreenAnswersThreeThings measures the overview on a phone of 390 by 844 pixels. Above the tabs stand
// whether all will be done, what is next and what to decide; on a new job, the way to its first piece.
func TestTheFirstScreenAnswersThreeThings(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	p := newPhone(t, t.TempDir())
	demo := p.firstJob(server)
	p.open(server.address + "/import")
	p.ready()
	p.fill(`#import textarea`, `{"garlandry":1,"brief":{"title":"Harvest supper"}}`)
	p.tap(`#import button.go`)
	p.until(`location.pathname.startsWith('/jobs/')`)
	fresh := p.text(`location.pathname`)
	for _, row := range []struct {
		name, at string
		shown    []string
	}{
		{"the demo job", demo, []string{"#clock-answer .verdict", "#clock-answer .dayline", "#next-card .go",
			"#decisions summary"}},
		{"a new job", fresh, []string{"h1", ".empty .go"}},
	} {
		p.open(server.address + row.at)
		p.ready()
		for _, selector := range row.shown {
			p.until(`document.querySelector('` + selector + `')`)
			assert.Equal(t, "true", p.text(`(() => { const r = document.querySelector('`+selector+`').getBoundingClientRect();
				return r.top >= 0 && r.height > 0 && r.left >= 0 && r.right <= 390 && r.bottom <= 844 - 88 })()`),
				"%s: %s ends at %s", row.name, selector,
				p.text(`document.querySelector('`+selector+`').getBoundingClientRect().bottom`))
		}
	}
	p.open(server.address + demo)
	p.ready()
	p.tap(`#decisions summary`)
	p.tap(`#decisions [data-act=choose] button, #decisions form button`)
	p.until(`document.querySelector('#decided .decision')`)
	assert.Equal(t, "false", p.text(`document.querySelector('#decided .decision').open`), "an answer folds its question")
}
