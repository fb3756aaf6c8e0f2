package main

import (
	"encoding/json"
	"fmt"
	"testing"

	"garlandry/testdata/browsertest"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// focusSeen says what is wrong with the element in focus: it is the body, it has no outline of its own or of the label
// that stands for it, it is off the screen, or another element covers it. It also says which element that is.
const focusSeen = `JSON.stringify((() => {
	const a = document.activeElement;
	const what = a.outerHTML.slice(0, 160);
	const came = !window.known; // a page that has just loaded has no focus yet
	window.known = true;
	if (a === document.body) return { what, wrong: came ? '' : 'the focus is lost to the body' };
	if (a.matches('main, h1')) return { what, wrong: '' }; // where a new page begins: no control
	const stands = a.closest('.pick, .segments label') || a;
	const outlined = (e) => { const { outlineWidth, outlineStyle } = getComputedStyle(e);
		return parseFloat(outlineWidth) >= 2 && outlineStyle !== 'none'; };
	const picker = /^(date|time)$/.test(a.type) && !a.matches(':focus'); // the browser rings its own button within
	if (!picker && !outlined(stands) && !outlined(a)) return { what, wrong: 'no outline' };
	const r = stands.getBoundingClientRect();
	if (r.height < 1 || r.width < 1) return { what, wrong: 'has no size' };
	if (r.bottom < 1 || r.top > innerHeight - 1) return { what, wrong: 'off the screen: ' + r.top + '-' + r.bottom };
	const within = (x, y) => { const e = document.elementFromPoint(x, y);
		return e && (stands.contains(e) || e.contains(stands) || e.closest('label')?.control === a); };
	const low = Math.min(r.bottom, innerHeight) - 2, x = r.left + r.width / 2;
	for (const y of [Math.max(r.top, 0) + 2, (Math.max(r.top, 0) + low) / 2, low]) {
		if (!within(x, y)) return { what, wrong: 'covered at ' + x + ' ' + y + ' of ' + r.top + '-' + r.bottom + ' by ' +
			document.elementFromPoint(x, y)?.outerHTML.slice(0, 100) };
	}
	return { what, wrong: '' };
})())`

// keyboard drives a page with keys alone, and checks the focus after each of them.
type keyboard struct {
	*phone
	presses int
}

// press presses one key and checks what has the focus then.
func (k *keyboard) press(key string) {
	k.t.Helper()
	k.check(k.browser.Press(key))
	k.presses++
	k.looks("after " + key)
}

func (k *keyboard) looks(when string) {
	k.t.Helper()
	var seen struct{ What, Wrong string }
	require.NoError(k.t, json.Unmarshal([]byte(k.text(focusSeen)), &seen))
	require.Empty(k.t, seen.Wrong, "%s, on %s: %s", when, k.text(`location.pathname`), seen.What)
}

// to presses Tab, or Shift and Tab where the control is further up, until it has the focus.
func (k *keyboard) to(selector string) {
	k.t.Helper()
	k.until(`document.querySelector('` + selector + `')`)
	for range 150 {
		key := k.text(`document.activeElement.matches('` + selector + `') ? '' : document.querySelector('` + selector +
			`').compareDocumentPosition(document.activeElement) & Node.DOCUMENT_POSITION_FOLLOWING ? 'Shift+Tab' : 'Tab'`)
		if key == "" {
			return
		}
		k.press(key)
	}
	k.check(fmt.Errorf("no Tab reaches %s; the focus is on %s", selector,
		k.text(`document.activeElement.outerHTML.slice(0, 200)`)))
}

// does presses a key on a control, and waits for what follows.
func (k *keyboard) does(selector, key, then string) {
	k.t.Helper()
	k.to(selector)
	k.check(k.browser.Press(key))
	k.presses++
	k.until(`document.readyState === 'complete' && (` + then + `)`)
	k.looks(key + " on " + selector)
}

// types types a text into a field.
func (k *keyboard) types(selector, text string) {
	k.t.Helper()
	k.to(selector)
	k.do(chromedp.KeyEvent(text))
	k.looks("typing into " + selector)
}

// at returns an expression that is true on the page whose address ends so.
func at(end string) string { return `location.pathname.endsWith('` + end + `')` }

// toasts returns an expression that is true while the toast holds the words.
func toasts(words string) string {
	return `document.getElementById('flash').innerText.includes('` + words + `')`
}

// TestBrowserByKeyboardAlone plans a new job, decides a question, ticks a card, undoes it, adds a line and makes a
// helper's link with keys alone. After each key the focus has an outline, is not on the body, and nothing covers it.
func TestBrowserByKeyboardAlone(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", false)
	k := &keyboard{phone: newPhone(t, t.TempDir(), browsertest.Optimised)}
	k.open(server.link)
	k.until(`document.querySelector('#join [name=token]').value`)
	k.does(`#join button[type=submit]`, "Enter", `location.pathname === '/'`)
	k.ready()
	k.plansAJob()
	k.decidesAndTicks()
	k.addsALine()
	k.sharesTheJob()
	t.Logf("%d keys", k.presses)
}

// plansAJob taps pictures and swatches with the space bar, and moves a stepper and a choice with arrows.
func (k *keyboard) plansAJob() {
	k.t.Helper()
	k.does(`#page a[href="/new"]`, "Enter", `document.querySelector('#new-job')`)
	for _, pick := range []string{`[name=build][value=garland]`, `[name=build][value=column]`,
		`[name=colours][value=coral]`, `[name=colours][value=gold-mirror]`} {
		k.does(`#new-job `+pick, " ", `document.activeElement.checked`)
	}
	k.does(`#start-hands input`, "ArrowUp", `document.activeElement.value === '3'`)
	k.does(`#start-hands [data-step=down]`, " ", `document.querySelector('#start-hands input').value === '2'`)
	k.until(`/^[0-9]+ balloons$/.test(document.querySelector('#start-sum').innerText)`)
	k.does(`#start-more summary`, "Enter", `document.querySelector('#start-more').open`)
	k.does(`#start-more [name=units]`, "ArrowRight", `document.activeElement.value === 'metric'`)
	k.does(`#new-job button.go`, "Enter", `location.pathname.startsWith('/jobs/')`)
}

// decidesAndTicks decides where the garland is made, ticks the next card, takes that back in the toast, and dismisses
// the toast.
func (k *keyboard) decidesAndTicks() {
	k.t.Helper()
	k.does(`#note-bring-garland summary`, "Enter", `document.querySelector('#note-bring-garland').open`)
	k.does(`#note-bring-garland button[aria-pressed=false]`, " ", toasts(`Decided: Garland`))
	k.does(`#next-card a.button`, "Enter", at(`/cards/shop`))
	k.does(`#page form:has([name=act][value=tick]) button`, "Enter", toasts(`: `))
	assert.Equal(k.t, "true", k.text(`document.activeElement.matches('form:has([name=act][value=untick]) button')`),
		"the focus stays on what was pressed")
	k.does(`#flash form button`, "Enter", toasts(`Reopened`))
	k.does(`#flash [data-dismiss]`, "Escape", `document.getElementById('flash').childNodes.length === 0`)
}

// addsALine adds a line of its own to the pack list.
func (k *keyboard) addsALine() {
	k.t.Helper()
	k.does(`#nav a[href$="/pack"]`, "Enter", at(`/pack`))
	k.does(`#page a[href$="/added?list=pack"]`, "Enter", at(`/added`))
	k.types(`#form-add [name="new.text"]`, "Paper lanterns")
	k.does(`#form-add button.go`, " ", toasts(`Paper lanterns`))
}

// sharesTheJob makes a helper's link.
func (k *keyboard) sharesTheJob() {
	k.t.Helper()
	k.does(`#nav a`, "Enter", `document.querySelector('#next-card')`)
	k.does(`#page a[href$="/share"]`, "Enter", at(`/share`))
	k.does(`#share-crew button[type=submit]`, "Enter", `document.querySelector('#fresh-url')`)
	k.to(`#fresh-url`)
}

// TestNothingInFocusStandsUnderTheToast ticks a line of a long name on a narrow phone without signal, and goes on with
// Tab. The dock is at its highest then: a line that says what waits, and above it the toast.
func TestNothingInFocusStandsUnderTheToast(t *testing.T) {
	inBrowser(t)
	p, server, job := ownersPhone(t)
	k := &keyboard{phone: p}
	p.until(`navigator.serviceWorker.controller`)
	server.stop()
	k.open(server.address + job + "/pack")
	k.ready()
	k.check(k.browser.Size(320, 640))
	longest := k.text(`[...document.querySelectorAll('#page .tickrow:has(.box)')].reduce((a, b) =>
		a.innerText.length < b.innerText.length ? b : a).id`)
	k.does(`#`+longest+` .box`, "Enter",
		`document.querySelector('#flash form') && document.querySelector('#state .wait')`)
	assert.Equal(t, "true", k.text(`parseFloat(getComputedStyle(document.documentElement).scrollPaddingBottom) >
		innerHeight - document.getElementById('flash').getBoundingClientRect().top`), "room for dock and toast")
	for range 150 {
		k.press("Tab")
		if k.text(`document.activeElement.closest('#nav') !== null`) == "true" {
			return
		}
	}
	t.Error("no Tab reaches the bar")
}
