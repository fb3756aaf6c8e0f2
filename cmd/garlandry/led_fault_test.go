package main

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
)

// faultedAt waits until a field has the focus, and checks that it is in view and that what is wrong with it is said.
func (p *phone) faultedAt(name string) {
	p.t.Helper()
	p.until(fmt.Sprintf(`document.activeElement.name === %q && document.activeElement.closest('[data-bad]')`, name))
	assert.Equal(p.t, "true true", p.text(inView+`(document.activeElement) + ' ' +
		(document.getElementById('alarm').textContent.length > 5)`), name)
}

// TestFaultsAreLedTo presses the button of a calculator with a value that it cannot read, and of forms that only the
// server takes. The field has the focus and is in view, and what is wrong is said.
func TestFaultsAreLedTo(t *testing.T) { inEngines(t, faultsLedTo) }

func faultsLedTo(t *testing.T, start func() *phone) {
	server := startServer(t, t.TempDir(), "", true)
	p := start()
	job := p.firstJob(server)
	p.open(server.address + "/calc/tip")
	p.ready()
	p.fill(`#calc [name=width]`, "zzz")
	p.text(`scrollTo(0, document.body.scrollHeight)`)
	p.tap(`#calc button[type=submit]`)
	p.faultedAt("width")

	p.open(server.address + "/import")
	p.ready()
	p.fill(`#import [name=text]`, "no job")
	p.tap(`#import button[type=submit]`)
	p.faultedAt("text")

	p.open(server.address + job + "/share")
	p.ready()
	p.fill(`#share-new [name=name]`, "Ines")
	p.fill(`#share-new [name=ends]`, "2020-01-01")
	p.tap(`#share-new button[type=submit]`)
	p.faultedAt("ends")
}

// TestResultsAreLedToWithoutTheCore asks for a calculation and a what-if where the core does not come, and where no
// scripts run. The results are in view, and a fault takes the eye where there are scripts.
func TestResultsAreLedToWithoutTheCore(t *testing.T) {
	inBrowser(t)
	server := newLine(t, startServer(t, t.TempDir(), "", true))
	server.set(fault{hits: coreFile, how: "500"})
	scripted, plain := newPhone(t, t.TempDir()), withoutScripts(t)
	scripted.join(server.link, "")
	scripted.until(`document.querySelector('#page a[href^="/jobs/"]')`)
	job := scripted.text(`document.querySelector('#page a[href^="/jobs/"]').getAttribute('href')`)
	plain.joinsByHand(server.ownerLink(t), "")
	plain.until(`document.querySelector('#page a[href^="/jobs/"]')`)
	for _, p := range []*phone{scripted, plain} {
		for address, at := range map[string][2]string{
			"/calc/tip":    {`#calc`, `#result`},
			job + "/clock": {`#whatif`, `#whatif [role=status]`},
		} {
			p.open(server.address + address)
			p.until(`document.querySelector('` + at[0] + ` button[type=submit]')`)
			p.text(`document.querySelector('` + at[0] + `').requestSubmit()`)
			p.until(`document.readyState === 'complete' && location.search && document.querySelector('` + at[1] + `')`)
			p.until(`(({ top }) => top >= 0 && top < document.querySelector('.dock').getBoundingClientRect().top)
				(document.querySelector('` + at[1] + `').getBoundingClientRect())`)
		}
	}
	scripted.open(server.address + "/calc/tip")
	scripted.fill(`#calc [name=width]`, "zzz")
	scripted.text(`document.querySelector('#calc').requestSubmit()`)
	scripted.faultedAt("width")
}
