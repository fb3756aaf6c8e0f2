package main

import (
	"net/http"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestTypingBeforeTheJobIsHere types into a piece whose job the phone does not hold yet, and moves the clock's what-if.
// The page, the focus and what was typed stay; the count follows once the job is here.
func TestTypingBeforeTheJobIsHere(t *testing.T) { inEngines(t, typingEarly) }

func typingEarly(t *testing.T, start func() *phone) {
	server := newLine(t, startServer(t, t.TempDir(), "", true))
	p := start()
	server.set(fault{hits: func(r *http.Request) bool { return r.URL.Path == "/api/v1/sync" }, how: "503"})
	job := p.firstJob(server.running)
	p.open(server.address + job + "/pieces/door")
	p.ready()
	count := p.text(`document.querySelector('#page [data-say]').dataset.say`)
	p.text(`window.same = 'yes', (() => {
		const field = document.querySelector('#page [name=name]');
		field.focus();
		field.select();
	})()`)
	for _, key := range "Arch" {
		p.check(p.browser.Press(string(key)))
	}
	p.fill(`#page [name=width_mm]`, "30 ft")
	stays := func() {
		t.Helper()
		assert.Equal(t, "yes name Arch "+job+"/pieces/door", p.text(`window.same + ' ' + document.activeElement.name + ' ' +
			document.querySelector('#page [name=name]').value + ' ' + location.pathname + location.search`))
	}
	p.text(`new Promise((done) => setTimeout(done, 1500))`) // a page that goes away does so at once
	stays()
	assert.Equal(t, count, p.text(`document.querySelector('#page [data-say]').dataset.say`), "nothing can count it yet")
	server.good()
	p.wake()
	p.until(`document.querySelector('#page [data-say]').dataset.say !== '` + count + `'`)
	stays()
}
