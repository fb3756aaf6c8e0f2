package main

import (
	"strings"
	"testing"
	"time"

	"garlandry/testdata/browsertest"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestAPlanInTwelveTapsInTheBrowser makes a plan for a garland, two columns and three colours by tapping pictures,
// swatches and the button alone, and counts the taps. Nothing is typed. Each tap is one of a finger, on what is not
// covered.
func TestAPlanInTwelveTapsInTheBrowser(t *testing.T) { inEngines(t, planInTwelveTaps) }

func planInTwelveTaps(t *testing.T, start func() *phone) {
	server := startServer(t, t.TempDir(), "", false)
	owner := start()
	owner.join(server.link, "")
	owner.until(`location.pathname === '/'`)
	owner.ready()
	taps, began := 0, time.Now()
	tap := func(selector string) {
		t.Helper()
		owner.check(owner.browser.Tap(selector))
		taps++
	}
	tap(`#page a[href="/new"]`)
	owner.until(`document.querySelector('#new-job')`)
	tap(`label:has([name=build][value=garland])`)
	tap(`label:has([name=build][value=column])`)
	for _, colour := range []string{"coral", "ink-blue", "sand"} {
		tap(`label:has([name=colours][value=` + colour + `])`)
	}
	owner.until(`/^[0-9]+ balloons$/.test(document.querySelector('#start-sum').innerText)`)
	assert.Equal(t, "3", owner.text(`document.querySelectorAll('#new-job [name=colours]:checked').length`),
		"an answer to an earlier tap must not undo a later one")
	owner.until(`document.querySelector('#new-job [name=title]').placeholder.startsWith('Garland and 2 columns, ')`)
	owner.shot("new")
	tap(`#new-job button.go`)
	owner.until(`location.pathname.startsWith('/jobs/')`)
	owner.sees("Garland and 2 columns, ")
	took := time.Since(began)
	assert.LessOrEqual(t, taps, 12)
	if strings.HasSuffix(t.Name(), "/Chromium") { // the others share its processor, and WebKit's has no fast compiler here
		assert.Less(t, took, time.Minute)
	}
	t.Logf("%d taps, 0 keystrokes, %.1f s of the app's own", taps, took.Seconds())

	tap(`#nav a[href$="/pieces"]`)
	owner.until(`document.querySelectorAll('#pieces > li').length === 2`)
	for _, row := range []string{"1", "2"} {
		owner.until(`/[1-9][0-9]* clusters/.test(document.querySelector('#pieces > li:nth-child(` + row + `)').innerText)`)
	}
}

// TestNewJobByHand checks steppers, a refusal, and units, which start as those of a British browser: nothing tapped or
// typed is lost, the size of what is tapped is in view, and the error stands at its field.
func TestNewJobByHand(t *testing.T) {
	inBrowser(t)
	owner := britishPhone(t, startServer(t, t.TempDir(), "", false))
	value := func(name string) string {
		return owner.text(`document.querySelector('#new-job [name="` + name + `"]').value`)
	}
	shown := func(key string) string {
		return owner.text(`document.querySelector('#new-job [data-of=` + key + `]').getBoundingClientRect().height > 0`)
	}
	demo := britishPhone(t, startServer(t, t.TempDir(), "", true))
	assert.Equal(t, "metric 2.4 x 2.1 m", demo.text(`document.querySelector('#new-job [name=units]:checked').value + ' ' +
		document.querySelector('#new-job [name="piece.wall"]').value`), "the demo, which is in feet, is nobody's choice")

	require.Equal(t, "false", shown("wall"))
	owner.tap(`#new-job [name=build][value=wall]`)
	owner.tap(`#new-job [name=build][value=column]`)
	require.Equal(t, "true", shown("wall"))
	require.Equal(t, "2.4 x 2.1 m", value("piece.wall"), "drawn by the phone")
	owner.tap(`#new-job [data-of=column] [data-step=up]`)
	owner.tap(`#start-hands [data-step=up]`)
	require.Equal(t, []string{"3", "3"}, []string{value("piece.column"), value("crew")})
	for range 4 {
		owner.tap(`#start-hands [data-step=down]`)
	}
	require.Equal(t, "1", value("crew"), "a stepper stops at its limit")

	owner.tap(`#new-job [name=units][value=imperial]`)
	owner.until(`document.querySelector('#new-job [name="piece.wall"]').value === '8 x 7 ft'`)
	owner.fill(`#new-job [name="piece.arch"]`, "3 x")
	owner.tap(`#new-job button.go`)
	owner.until(`document.querySelector('#f-piece_2earch-error')`)
	assert.Equal(t, []string{"3 x", "8 x 7 ft", "3", "1"},
		[]string{value("piece.arch"), value("piece.wall"), value("piece.column"), value("crew")})
	assert.Equal(t, "true", shown("arch"), "the field with the error is in view")
	owner.fill(`#new-job [name="piece.arch"]`, "3 m by 2 m")
	owner.tap(`#new-job button.go`)
	owner.until(`location.pathname.startsWith('/jobs/')`)
	owner.sees("3 columns")
	owner.tap(`#nav a[href$="/pieces"]`)
	owner.until(`document.querySelectorAll('#pieces > li').length === 3`)
}

// britishPhone joins and opens the form of a new job, which the server draws in metres, too.
func britishPhone(t *testing.T, server *running) *phone {
	t.Helper()
	owner := newPhone(t, t.TempDir(), browsertest.Optimised, chromedp.Flag("lang", "en-GB"),
		chromedp.Flag("accept-lang", "en-GB,en"))
	owner.join(server.link, "")
	owner.until(`location.pathname === '/'`)
	owner.ready()
	owner.text(`fetch('/new?from=server').then((answer) => answer.text()).then((page) => { window.served = page; })`)
	owner.until(`window.served && window.served.includes('value="2.4 x 2.1 m"')`) // drawn by the server
	owner.tap(`#page a[href="/new"]`)
	owner.until(`document.querySelector('#new-job')`)
	return owner
}
