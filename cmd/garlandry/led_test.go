package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// ledTo waits until a result has the focus, and checks that its beginning is in view.
func (p *phone) ledTo(selector string) {
	p.t.Helper()
	p.until(`document.activeElement.matches('` + selector + `')`)
	assert.Equal(p.t, "true", p.text(`(({ top }) => top >= 0 &&
		top < document.querySelector('.dock').getBoundingClientRect().top)
		((document.activeElement.firstElementChild || document.activeElement).getBoundingClientRect())`), selector)
}

// TestResultsAreLedTo asks for a calculation, a what-if and the clock's help by their buttons, each from the other end
// of its page. The result has the focus and is in view, and what is found later is said.
func TestResultsAreLedTo(t *testing.T) {
	inBrowser(t)
	p, server, job := ownersPhone(t)
	p.open(server.address + "/calc/clusters")
	p.ready()
	p.text(`scrollTo(0, document.body.scrollHeight)`)
	p.tap(`#page form button[type=submit]`)
	p.ledTo(`#result`)

	clock := server.address + job + "/clock"
	p.open(clock)
	p.ready()
	p.text(`scrollTo(0, 0)`)
	p.tap(`#whatif button`)
	p.ledTo(`#whatif [role=status]`)
	assert.NotEmpty(t, p.text(`document.activeElement.innerText`))

	p.open(server.address + job)
	p.ready()
	p.tap(`#page a[href$="/clock?help=1#help"]`)
	p.ledTo(`#help`)
	p.until(`document.querySelector('#fixes')`)
	p.until(`/^[0-9]+ ways? to help$/.test(document.getElementById('say').textContent)`)
	p.ledTo(`#help, #help *`)
}
