package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestTheEyeStaysWhereOnlyTheQueryGoes moves and saves lines at an address with a query, which the answer lacks. The
// page stays where it is, with and without the core.
func TestTheEyeStaysWhereOnlyTheQueryGoes(t *testing.T) {
	inBrowser(t)
	server := newLine(t, startServer(t, t.TempDir(), "", true))
	p := newPhone(t, t.TempDir())
	job := p.firstJob(server.running)
	for _, line := range []string{"Key to the hall", "Cake stand"} {
		p.open(server.address + job + "/added?list=pack")
		p.ready()
		p.fill(`[name="new.text"]`, line)
		p.tap(`#form-add button.go`)
		p.sees("Added " + line + ".")
	}
	stays := func() {
		t.Helper()
		p.open(server.address + job + "/added?list=all")
		p.until(`document.querySelectorAll('#page li form:has([name=act][value=down]) button').length > 0`)
		p.text(`document.body.style.paddingBottom = '200vh', scrollTo(0, 80), window.same = 'yes'`)
	}
	in := func(what string) {
		t.Helper()
		p.until(`document.querySelector('#flash > *')`)
		assert.Equal(t, "yes 80 false", p.text(`window.same + ' ' + Math.round(scrollY) + ' ' +
			document.activeElement.matches('h1, body')`), what)
	}
	press := func(selector string) {
		t.Helper()
		p.text(`document.querySelector('` + selector + `').focus({ preventScroll: true })`)
		p.text(`document.activeElement.click()`)
	}
	stays()
	p.ready()
	p.text(`document.querySelectorAll('#page li details').forEach((d) => { d.open = true; })`)
	press(`#page li form:has([name=act][value=down]) button`)
	in("moved")
	stays()
	p.ready()
	p.text(`(d => { d.open = true; d.querySelector('form.edit, form').querySelector('[name$=text]').value = 'Keys';
			d.querySelector('button.go').focus({ preventScroll: true }); document.activeElement.click(); })(
			[...document.querySelectorAll('#page li details')].find((d) => d.querySelector('[name$=text]')))`)
	in("saved")
	p = newPhone(t, t.TempDir())
	server.set(fault{hits: coreFile, how: "500"})
	p.join(server.ownerLink(t), "")
	p.until(`document.querySelector('#page a[href^="/jobs/"]')`)
	stays()
	p.until(`document.documentElement.dataset.ready === 'no'`)
	p.text(`document.querySelectorAll('#page li details').forEach((d) => { d.open = true; })`)
	press(`#page li form:has([name=act][value=down]) button`)
	in("moved without the core")
}
