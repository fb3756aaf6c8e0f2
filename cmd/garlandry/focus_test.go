package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// keyed is one press of Enter on a focused control, and where the focus has to be afterwards.
type keyed struct {
	name  string
	path  string // below the job's address; empty: on the page of the row before
	focus string // selector of the control
	note  string // expression kept as window.noted before the press, such as the id of the next row
	done  string // expression that is true once the page shows the outcome
	at    string // expression that is true for the element in focus, a
}

// heldBy returns an expression that is true if a button of an action on an entity is in focus.
func heldBy(act, entity string) string {
	return `a.matches('form:has([name=act][value=` + act + `]):has([name=e][value="` + entity + `"]) button')`
}

// focusRows are the presses, in the order in which they follow one another on the demo's job.
func focusRows(card, line string) []keyed {
	of := func(act, entity string) string {
		return `#page form:has([name=act][value=` + act + `]):has([name=e][value="` + entity + `"]) button`
	}
	there := func(selector string) string { return `document.querySelector('` + selector + `')` }
	gone := func(selector string) string { return `!document.querySelector('` + selector + `')` }
	add := `#page form:has([name=act][value=add]):has([name=n][value="1"]) button`
	undo := `#page form:has([name=act][value=undo]) button`
	second, last := `#pieces > li:nth-child(2)`, `#pieces > li:nth-child(1)`
	return []keyed{
		{"tick a card", "/cards/look", of("tick", "card/look"), "", there(of("untick", "card/look")),
			heldBy("untick", "card/look")},
		{"untick it", "", of("untick", "card/look"), "", there(of("tick", "card/look")), heldBy("tick", "card/look")},
		{"tick in a list: the next row", "/cards", `#page .tickrow:has(.box) .box`,
			`document.activeElement.closest('.tickrow').nextElementSibling.id`,
			`!document.querySelector('#page .tickrow .box').closest('details') &&
				document.querySelector('#page .closed .box')`, `a.closest('li').id === window.noted`},
		{"count one", "/cards/" + card, add, "",
			`document.querySelector('` + undo + `') && document.querySelector('#say').textContent.startsWith('1 of ')`,
			`a.matches('` + strings.ReplaceAll(add, `#page `, ``) + `')`},
		{"count another", "", add, `document.querySelector('.tallylast').innerText`,
			`document.querySelector('.big').innerText.startsWith('2')`, `a.textContent === '+1'`},
		{"take the second back", "", undo, "", `document.querySelector('.big').innerText.startsWith('1')`,
			`a.matches('form:has([value=undo]) button')`},
		{"take the first back: what follows it", "", undo, "", gone(undo), `a.textContent === 'Set the count'`},
		{"take a card", "", `#whose button`, "", `document.querySelector('#whose').innerText.includes('is yours')`,
			`a.textContent === 'Give it back'`},
		{"give it back", "", `#whose button`, "", `document.querySelector('#whose').innerText.includes('grabs')`,
			`a.textContent.includes('do it')`},
		{"pack a line", "/pack", of("pack", line) + `.box`, "", there(of("unpack", line) + `.box`),
			heldBy("unpack", line)},
		{"take it out", "", of("unpack", line) + `.box`, "", there(of("pack", line) + `.box`), heldBy("pack", line)},
		{"set a line aside: the next row", "", of("unneeded", line),
			`document.activeElement.closest('.tickrow').nextElementSibling.id`, there(of("needed", line)),
			`a.closest('li').id === window.noted`},
		{"put it back: what follows its list", "", `#unneeded .split > form button`, "", gone("#unneeded"),
			`a.matches('#page a[href$="/added?list=pack"]')`},
		{"pack, then undo in what is said: its button", "/pack", of("pack", line) + `.box`, "", there("#flash button"),
			heldBy("unpack", line)},
		{"and there", "", `#flash button`, "", there(of("pack", line) + `.box`), `a.matches('#flash button')`},
		{"pack in what is left: the next row", "/pack?left=1", `#page .tickrow .box`,
			`document.activeElement.closest('.tickrow').nextElementSibling.id`,
			`document.querySelector('#page .tickrow').id === window.noted`, `a.matches('#' + window.noted + ' .box')`},
		{"move a piece down", "/pieces", last + ` .down`, `document.activeElement.closest('li').id`,
			`document.querySelector('` + last + `').id !== window.noted`, `a.matches('#' + window.noted + ' .down')`},
		{"move it to the top: its other button", "", second + ` .up`, `document.activeElement.closest('li').id`,
			`document.querySelector('` + last + `').id === window.noted`, `a.matches('#' + window.noted + ' .down')`},
		{"move a colour down", "/colours", `#page li form:has([name=act][value=down]) button`,
			`document.activeElement.closest('li').id`,
			`document.querySelector('#page .list > li').id !== window.noted`,
			`a.matches('#' + window.noted + ' form:has([value=down]) button')`},
		{"undo in the history: the next row", "/history", `#page .history form button`,
			`document.activeElement.closest('form').id`, `!document.getElementById(window.noted)`,
			`a.matches('#page .history form button')`},
	}
}

// TestFocusStaysWhereTheHandIs presses every kind of button by keyboard. The focus stays on the button, or goes to what
// comes next, and never to the body.
func TestFocusStaysWhereTheHandIs(t *testing.T) { inEngines(t, focusStays) }

func focusStays(t *testing.T, start func() *phone) {
	server := startServer(t, t.TempDir(), "", true)
	p := start()
	at := server.address + p.firstJob(server)
	p.open(at + "/pack")
	p.ready()
	line := p.text(`document.querySelector('#page .tickrow [name=e]').value`)
	p.open(at + "/cards")
	p.ready()
	card := p.text(`document.querySelector('#page a[href*="/cards/make/"]').pathname.split('/cards/')[1]`)
	for _, row := range focusRows(card, line) {
		if row.path != "" {
			p.open(at + row.path)
			p.ready()
		}
		p.presses(t, row)
	}
}

// presses focuses a control, presses Enter and checks where the focus is.
func (p *phone) presses(t *testing.T, row keyed) {
	t.Helper()
	control := `document.querySelector('` + row.focus + `')`
	p.until(control)
	p.text(`(() => {
		for (let up = ` + control + `; up; up = up.parentElement) if (up.nodeName === 'DETAILS') up.open = true;
		` + control + `.focus(); })()`)
	require.Equal(t, "true", p.text(`document.activeElement === `+control), row.name)
	if row.note != "" {
		p.text(`window.noted = ` + row.note)
	}
	p.check(p.browser.Press("Enter"))
	p.until(row.done)
	assert.Equal(t, "true", p.text(`(a => `+row.at+`)(document.activeElement)`), "%s: the focus is on %s", row.name,
		p.text(`document.activeElement.outerHTML.slice(0, 300)`))
}

// TestTheEyeStaysWhereARowWas sets a line aside and decides a question by keyboard. Each goes to another part of the
// page; the page stays, the focus is near, and the toast says what happened.
func TestTheEyeStaysWhereARowWas(t *testing.T) {
	inBrowser(t)
	p, server, job := ownersPhone(t)
	for _, press := range []struct{ path, control, done string }{
		{"/pack", `#page form:has([name=act][value=unneeded]) button`, `#unneeded`},
		{"", `#decisions .decision form button`, `#decided`},
	} {
		p.open(server.address + job + press.path)
		p.ready()
		p.text(`(b => { b.closest('details').open = true; b.focus(); window.y = scrollY; })(
			document.querySelector('` + press.control + `'))`)
		p.check(p.browser.Press("Enter"))
		p.until(`document.querySelector('` + press.done + `') && document.querySelector('#flash > *')`)
		assert.Equal(t, "true true false", p.text(`(Math.abs(scrollY - window.y) < innerHeight / 2) + ' ' + `+inView+
			`(document.activeElement) + ' ' + document.activeElement.matches('h1, body')`), "%s: %s", press.control,
			p.text(`window.y + ' to ' + scrollY + ' ' + document.activeElement.outerHTML.slice(0, 300)`))
	}
}
