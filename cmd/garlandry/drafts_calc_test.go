package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestACalculatorKeepsItsValues types into a calculator, leaves it by the tabs and comes back by the list. What was
// typed is there, and its result, until it is discarded. An address with values of its own has those.
func TestACalculatorKeepsItsValues(t *testing.T) {
	inBrowser(t)
	p, server, _ := ownersPhone(t)
	calculator := server.address + "/calc/column"
	result := func() string { return p.text(`document.querySelector('#result .big').textContent`) }
	height := `document.querySelector('#calc [name=height]').value`
	p.open(calculator)
	p.ready()
	first, example := p.valueOf("#calc [name=height]"), result()
	again := func() {
		t.Helper()
		p.tap(`#nav a[href="/"]`)
		p.until(`location.pathname === '/'`)
		p.tap(`a[href="/calc"]`)
		p.tap(`#page a[href="/calc/column"]`)
		p.until(`document.querySelector('#calc')`)
	}
	p.fill(`#calc [name=height]`, "11ft")
	p.until(`location.search.includes('11ft') && document.querySelector('#result .big').textContent !== '` + example + `'`)
	wanted := result()
	assert.Equal(t, "true", p.text(`document.querySelector('#calc .unsaved') === null`), "it is nothing to save")
	again()
	p.until(height + ` === '11ft' && document.querySelector('#result .big').textContent === '` + wanted + `'`)
	p.until(`/Your draft from .* is back/.test(document.querySelector('#calc').innerText)`)

	p.open(calculator) // the server draws it, before the core
	p.ready()
	p.until(height + ` === '11ft' && document.querySelector('#result .big').textContent === '` + wanted + `'`)
	p.open(calculator + "?height=9ft")
	p.ready()
	assert.Equal(t, "9ft", p.text(height), "an address that says what it asks")
	again()
	p.until(height + ` === '11ft'`)
	p.until(`location.search.includes('11ft')`)
	p.tap(`#calc [data-discard]`)
	p.until(height + ` === '` + first + `' && document.querySelector('#result .big').textContent === '` + example + `'`)
	assert.Equal(t, "0", p.drafts())
	again()
	p.until(`document.querySelector('#result .big').textContent === '` + example + `'`)
	assert.Equal(t, first, p.text(height))
}
