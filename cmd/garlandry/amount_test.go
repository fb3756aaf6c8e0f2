package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestARefusedCountIsAtItsField sets counts that are none, on a card and on the pack list. What was typed stays, its
// field is marked and has the focus.
func TestARefusedCountIsAtItsField(t *testing.T) {
	inBrowser(t)
	p, server, job := ownersPhone(t)
	p.open(server.address + job + "/cards")
	p.ready()
	card := p.text(`document.querySelector('#page a[href*="/cards/make/"]').pathname`)
	for _, at := range []string{card, job + "/pack"} {
		p.open(server.address + at)
		p.ready()
		for _, typed := range []string{"abc", "-5"} {
			form := `#page form.inline:has([name=n])`
			p.fill(form+` [name=n]`, typed)
			p.text(`document.querySelector('` + form + `').requestSubmit()`)
			p.until(`(a => a.matches('[name=n][aria-invalid=true]') && a.value === '` + typed + `')(document.activeElement)`)
			assert.Equal(t, "true true", p.text(inView+`(document.activeElement) + ' ' +
				/0 to 1000000/.test(document.getElementById(document.activeElement.getAttribute('aria-describedby')).innerText)`))
		}
	}
}
