package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// inView reports whether an element is on the screen, above the tabs.
const inView = `(e => { const r = e.getBoundingClientRect(), dock = document.querySelector('.dock');
	return r.top >= 0 && r.bottom <= dock.getBoundingClientRect().top; })`

// TestTheAnswerToAFormIsInView checks that a press on a button far down a page is answered where the eye is: an error
// at its field, with the focus there; what was done on the screen, with the page where it was.
func TestTheAnswerToAFormIsInView(t *testing.T) { inEngines(t, answerInView) }

func answerInView(t *testing.T, start func() *phone) {
	server := startServer(t, t.TempDir(), "", true)
	p := start()
	job := p.firstJob(server)
	p.open(server.address + job + "/brief")
	p.ready()
	p.fill(`[name=drive_min]`, "a while")
	p.fill(`[name=notes]`, "typed below it")
	p.text(`document.querySelector('#edit-brief button.go').scrollIntoView()`)
	p.tap(`#edit-brief button.go`)
	p.until(`document.activeElement.name === 'drive_min' && ` + inView + `(document.activeElement)`)
	assert.Equal(t, "a while / typed below it",
		p.text(`document.querySelector('[name=drive_min]').value + ' / ' + document.querySelector('[name=notes]').value`))

	p.open(server.address + job + "/kit")
	p.ready()
	p.tap(`#open-stand summary`)
	p.fill(`[name="stand.notes"]`, "Bolts in the blue tin")
	p.text(`document.querySelector('#form-stand button.go').scrollIntoView()`)
	before := p.text(`scrollY > innerHeight`)
	p.tap(`#form-stand button.go`)
	p.until(`document.querySelector('#flash > *')`)
	assert.Equal(t, "true", before, "the button is not on the first screen")
	assert.Equal(t, "Saved Wide frame. Undo true", p.text(`document.querySelector('#flash').innerText.trim()
		.replace(/\n/, ' ') + ' ' + `+inView+`(document.querySelector('#flash > *'))`))
	p.tap(`.wayback`)
	p.until(`location.pathname === '` + job + `'`)
	assert.Equal(t, "undefined", p.text(`document.documentElement.dataset.answered`), "a new page begins at its top")
}
