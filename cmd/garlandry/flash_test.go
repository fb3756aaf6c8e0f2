package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestTheToast checks that the answer to a press stands above the tabs with its undo, in a region that was there
// before, that a person may dismiss it and stay where the focus was, and that the next page is without it.
func TestTheToast(t *testing.T) { inEngines(t, theToast) }

func theToast(t *testing.T, start func() *phone) {
	server := startServer(t, t.TempDir(), "", true)
	p := start()
	job := p.firstJob(server)
	p.open(server.address + job + "/cards")
	p.ready()
	p.text(`document.getElementById('flash').known = 'before'`)
	assert.Equal(t, "status 0", p.text(`document.getElementById('flash').getAttribute('role') + ' ' +
		document.getElementById('flash').childNodes.length`))
	toast := func(words string) {
		t.Helper()
		p.until(`document.getElementById('flash').innerText.includes('` + words + `')`)
		assert.Equal(t, "before true", p.text(`document.getElementById('flash').known + ' ' +`+inView+
			`(document.querySelector('#flash > *'))`))
	}
	tick := func() {
		t.Helper()
		p.text(`[...document.querySelectorAll('#page .box[aria-pressed=false]')].at(-1).scrollIntoView()`)
		p.text(`[...document.querySelectorAll('#page .box[aria-pressed=false]')].at(-1).click()`)
	}
	tick()
	toast(": ")
	p.text(`document.querySelector('#flash form button').focus()`)
	p.text(`document.querySelector('#flash form button').click()`)
	toast("Reopened")
	assert.Equal(t, "Dismiss", p.text(`document.activeElement.getAttribute('aria-label')`), "focus stays in the toast")
	dismiss := func() {
		t.Helper()
		p.tap(`#flash [data-dismiss]`)
		assert.Equal(t, "0", p.text(`document.getElementById('flash').childNodes.length`))
	}
	dismiss()

	tick()
	toast(": ")
	dismiss()
	p.until(`document.documentElement.dataset.waiting === '0'`) // drawn anew meanwhile
	assert.Equal(t, "0", p.text(`document.getElementById('flash').childNodes.length`))

	tick()
	toast(": ")
	p.tap(`.wayback`)
	p.until(`location.pathname === '` + job + `'`)
	p.until(`document.getElementById('flash').childNodes.length === 0`)
}
