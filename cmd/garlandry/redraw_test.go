package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// patchTwice draws a button into a region, shows it as the hooks do, and draws the same again; then once more after
// a change that no hook made. It tells how often the HTML was parsed by then, and whether the button shows.
const patchTwice = `(async () => {
	const page = document.documentElement.dataset;
	const { patch, beside } = await import('/a/' + page.build + '/js/patch.js');
	const region = document.body.appendChild(document.createElement('div'));
	const html = Object.getOwnPropertyDescriptor(Element.prototype, 'innerHTML');
	let parsed = 0;
	Object.defineProperty(HTMLTemplateElement.prototype, 'innerHTML', { get: html.get,
		set(text) { if (text.includes('data-tried')) parsed++; html.set.call(this, text); } });
	const drawn = () => {
		patch(region, '<button data-tried hidden>Print</button>');
		beside(() => { region.firstChild.hidden = false; });
		return parsed + (region.firstChild.hidden ? ' hidden' : ' shown');
	};
	const found = [drawn(), drawn()];
	region.firstChild.textContent = 'Printed';
	found.push(drawn(), region.textContent);
	window.found = found.join(', ');
})()`

// TestRedrawOfTheSame draws a region twice. Buttons that need scripts are shown after every drawing: that must be no
// reason to parse and compare a long page again, while any other change is.
func TestRedrawOfTheSame(t *testing.T) {
	inEngines(t, func(t *testing.T, start func() *phone) {
		server := startServer(t, t.TempDir(), "", true)
		p := start()
		p.firstJob(server)
		p.text(`(` + patchTwice + `, '')`)
		p.until(`window.found`)
		assert.Equal(t, "1 shown, 1 shown, 2 shown, Print", p.text(`window.found`))
	})
}

// TestClosedRows checks that what a closed row of the pack list holds takes part in no layout, and is there once it is
// opened. A browser's form filler laid out each field of each closed row alone.
func TestClosedRows(t *testing.T) {
	inEngines(t, func(t *testing.T, start func() *phone) {
		server := startServer(t, t.TempDir(), "", true)
		p := start()
		p.open(server.address + p.firstJob(server) + "/pack")
		p.ready()
		shown := `String(getComputedStyle(document.querySelector('#page .some > .opened')).display !== 'none')`
		assert.Equal(t, "false", p.text(shown), "before")
		p.tap(`#page .some > summary`)
		p.until(shown + ` === 'true' && document.querySelector('#page .some > .opened [name=n]').offsetHeight >= 44`)
		p.tap(`#page .some > summary`)
		p.until(shown + ` === 'false'`)
	})
}
