package main

import (
	"testing"

	"garlandry/app/store"
	"garlandry/pwa/address"
	"garlandry/testdata/browsertest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// kindTitle is an expression for what stands at a kind of a making card, from 0.
func kindTitle(kind string) string {
	return `document.querySelectorAll('.kinds li .rowtitle')[` + kind + `]?.innerText`
}

// tapAt clicks the picture at shares of its width and height.
func (p *phone) tapAt(x, y string) {
	p.t.Helper()
	p.until(`document.querySelector('svg[data-clusters]')`)
	p.text(`(() => {
		const svg = document.querySelector('svg[data-clusters]');
		svg.scrollIntoView({ block: 'nearest', behavior: 'instant' });
		const box = svg.getBoundingClientRect();
		const at = { clientX: box.left + box.width * ` + x + `, clientY: box.top + box.height * ` + y + `, bubbles: true };
		document.elementFromPoint(at.clientX, at.clientY).dispatchEvent(new MouseEvent('click', at));
	})()`)
}

// TestBrowserTalliesByKind counts clusters by kind on one phone: they show on the other. It taps a balloon, and marks
// all clusters up to it.
func TestBrowserTalliesByKind(t *testing.T) {
	inBrowser(t)
	one, server, job := ownersPhone(t)
	token, err := store.Invite(server.dir, store.Options{})
	require.NoError(t, err)
	other := newPhone(t, t.TempDir(), browsertest.Optimised)
	other.join(server.address+address.OwnerInvite(token), "")
	other.sees("Reading room")
	other.ready()
	for _, p := range []*phone{one, other} {
		p.open(server.address + job + "/cards/make/door")
		p.ready()
		p.until(kindTitle("1") + ` === '7 x B'`)
	}
	one.tap(`[aria-label="+1 B"]`)
	one.until(kindTitle("1") + ` === '1 of 7 B'`)
	other.until(kindTitle("1") + ` === '1 of 7 B'`)
	other.tap(`[aria-label="+1 B"]`)
	one.until(kindTitle("1") + ` === '2 of 7 B'`)
	assert.Equal(t, "true", one.text(`document.querySelectorAll('.picture .made circle').length > 8`))

	one.tapAt("0.75", "0.3")
	one.until(`location.search.startsWith('?cluster=') && document.querySelector('.picture .rim')`)
	one.until(`document.activeElement.closest('#cluster-form')`)
	said := one.text(`document.querySelector('#cluster-form [role=status]').innerText`)
	assert.Contains(t, said, "of 26: kind ")
	assert.Equal(t, "true", one.text(`(() => {
		const box = document.querySelector('#cluster-form [role=status]').getBoundingClientRect();
		return box.top >= 0 && box.bottom <= innerHeight;
	})()`), "what it says is in view")
	number := one.text(`new URLSearchParams(location.search).get('cluster')`)
	one.tap(`#cluster-next`)
	one.until(`new URLSearchParams(location.search).get('cluster') - 1 == ` + number)
	assert.Equal(t, "cluster-next", one.text(`document.activeElement.id`), "the next step is under the same finger")
	one.tap(`#cluster-previous`)
	one.until(`new URLSearchParams(location.search).get('cluster') == ` + number)
	one.tap(`#cluster form[method=post] button`)
	one.until(`document.querySelector('#cluster').innerText.includes('Made by')`)
	made := `Number(document.querySelector('#doing .big b, #doing .big')?.innerText.match(/\d+/)?.[0])`
	one.until(made + ` >= ` + number)
	other.until(made + ` === ` + one.text(made))
	one.fill(`#cluster-number`, "99")
	one.tap(`#cluster-form button`)
	one.sees("Type a whole number from 1 to 26.")
}

// TestBrowserPicksByHand picks the kind of a cluster of a piece, and the counts and the pack list follow.
func TestBrowserPicksByHand(t *testing.T) {
	inBrowser(t)
	p, server, job := ownersPhone(t)
	ink := func() string {
		p.open(server.address + job + "/pack")
		p.ready()
		return p.text(`document.querySelector('[id*="pack-latex-18-ink"]').innerText.replace(/\s+/g, ' ')`)
	}
	before := ink()
	p.open(server.address + job + "/pieces/door")
	p.ready()
	p.text(`(() => { const f = document.querySelector('[name=pattern]'); f.value = 'hand';
		f.dispatchEvent(new Event('input', { bubbles: true })); })()`)
	p.tap(`#edit-piece .foot button`)
	p.until(`location.pathname.endsWith('/pieces')`)
	p.open(server.address + job + "/pieces/door")
	p.ready()
	p.tapAt("0.6", "0.15")
	p.until(`document.querySelector('#hand-form')`)
	p.text(`document.querySelector('#hand-reach').value = '2'`)
	p.tap(`#hand-form [value="11/ink/4+18/ink/2"]`)
	p.sees("4 Ink blue 11-inch; 2 Ink blue 18-inch.")
	p.until(`document.querySelector('#hand-form [value="11/ink/4+18/ink/2"]').getAttribute('aria-pressed') === 'true'`)
	assert.Equal(t, "true", p.text(`location.search.startsWith('?cluster=')`), "the cluster is still shown")
	after := ink()
	assert.NotEqual(t, before, after, "the pack list follows")
	p.open(server.address + job + "/cards/make/door")
	p.ready()
	p.until(`[...document.querySelectorAll('.kinds li')].some((li) => li.innerText.includes('4 Ink blue 11-inch'))`)
}
