package main

import (
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"strings"
	"testing"

	"garlandry/testdata/browsertest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// typedFields lists the fields of the form for a new thing that hold something, as name and value. The fields that
// begin with something, such as a count of 1, are left out.
const typedFields = `[...document.querySelectorAll('#form-add input:not([type=hidden]), #form-add textarea')]
	.filter(f => f.type === 'checkbox' || f.type === 'radio' ? f.checked !== f.defaultChecked : f.value !== f.defaultValue)
	.map(f => f.name + '=' + f.value).join(' ')`

// TestAddFormsAskByKindAndEmptyThemselves adds a ladder and then a car to the kit, and two people to the crew: with the
// phone's core, and with the server alone. Nothing of what was added first may stand in the form for the next.
func TestAddFormsAskByKindAndEmptyThemselves(t *testing.T) {
	for _, row := range []struct {
		name string
		core bool
	}{{"with the core", true}, {"without the core", false}} {
		t.Run(row.name, func(t *testing.T) {
			inBrowser(t)
			server := startServer(t, t.TempDir(), "", true)
			p := newPhone(t, t.TempDir(), browsertest.Optimised)
			if !row.core {
				p.onEveryPage(`window.Worker = undefined`)
			}
			p.join(server.link, "")
			p.sees("Reading room")
			job := p.text(`document.querySelector('a[href^="/jobs/"]').getAttribute('href')`)
			at := func(page string) {
				p.open(server.address + job + page)
				if row.core {
					p.ready()
				} else {
					p.until(`document.documentElement.dataset.ready === 'no'`)
				}
			}
			addsToTheKit(p, at)
			addsToOtherLists(p, at)
		})
	}
}

// addsToTheKit adds a ladder and a car, at first with a mistake.
func addsToTheKit(p *phone, at func(string)) {
	p.t.Helper()
	at("/kit")
	p.tap(`#add summary`)
	p.tap(`#add a[href$="?kind=ladder"]`)
	p.until(`document.querySelector('#form-add [name="new.height_mm"]')`)
	p.fill(`[name="new.name"]`, "Long ladder")
	p.fill(`[name="new.height_mm"]`, "3 m")
	p.tap(`#form-add button.go`)
	p.sees("Added Long ladder.")
	p.until(`location.pathname.endsWith('/kit') && !document.querySelector('#form-add')`)
	p.tap(`#add a[href$="?kind=car"]`)
	p.until(`document.querySelector('#form-add [name="new.litres"]')`)
	assert.Empty(p.t, p.text(typedFields), "a car begins empty")
	assert.Equal(p.t, "0", p.text(`document.querySelectorAll('[name="new.height_mm"], [name="new.width_mm"]').length`),
		"a car has no height of its own")
	p.fill(`[name="new.name"]`, "Van")
	p.fill(`[name="new.litres"]`, "much")
	p.tap(`#form-add button.go`)
	p.until(`document.querySelector('#form-add [aria-invalid]')`)
	assert.Equal(p.t, "Van", p.text(`document.querySelector('[name="new.name"]').value`), "what was typed stays")
	p.fill(`[name="new.litres"]`, "1100")
	p.tap(`#form-add button.go`)
	p.sees("Added Van.")
	assert.Equal(p.t, "1", p.text(`[...document.querySelectorAll('.rowtitle')]
		.filter(e => e.innerText === 'Long ladder').length`), "one ladder")
}

// addsToOtherLists adds two people, a line of one's own and a colour.
func addsToOtherLists(p *phone, at func(string)) {
	p.t.Helper()
	at("/crew")
	p.tap(`#add summary`)
	for _, name := range []string{"Nora", "Olek"} {
		p.until(typedFields + ` === ''`)
		p.fill(`[name="new.name"]`, name)
		p.text(`document.querySelector('[name="new.name"]').focus()`)
		p.fill(`[name="new.from"]`, "2027-05-08T09:00")
		p.text(`document.querySelector('#form-add').requestSubmit()`)
		p.sees("Added " + name + ".")
	}
	assert.Empty(p.t, p.text(typedFields))

	at("/added?list=pack")
	p.fill(`[name="new.text"]`, "Key to the hall")
	p.tap(`#form-add button.go`)
	p.sees("Added Key to the hall.")
	at("/colours")
	p.tap(`#add summary`)
	p.fill(`[name="new.name"]`, "Ochre")
	p.tap(`#form-add button.go`)
	p.sees("Added Ochre.")
	p.until(typedFields + ` === ''`)
}

// TestKitFormsWithScriptsOff picks the kind of a thing by a link, adds it, and changes what another one is.
func TestKitFormsWithScriptsOff(t *testing.T) {
	server := startServer(t, t.TempDir(), "", true)
	jar, err := cookiejar.New(nil)
	require.NoError(t, err)
	client := &http.Client{Jar: jar}
	_, token, _ := strings.Cut(server.link, "#")
	answer, err := client.PostForm(server.address+"/j", url.Values{"token": {token}})
	require.NoError(t, err)
	job, there := document(t, answer).Find(`a[href^="/jobs/"]`).First().Attr("href")
	require.True(t, there)
	answer, err = client.Get(server.address + job + "/kit")
	require.NoError(t, err)
	pick, there := document(t, answer).Find(`#add a[href$="?kind=pump"]`).Attr("href")
	require.True(t, there)
	answer, err = client.Get(server.address + pick)
	require.NoError(t, err)
	form := document(t, answer).Find("#form-add")
	require.Equal(t, 1, form.Length())
	assert.Zero(t, form.Find(`[name="new.width_mm"], [name="new.litres"], [name="new.frame"]`).Length())
	answer, err = client.PostForm(server.address+form.AttrOr("action", ""),
		url.Values{"act": {"add"}, "new.kind": {"pump"}, "new.name": {"Foot pump"}})
	require.NoError(t, err)
	after := document(t, answer)
	assert.Contains(t, after.Find(".rowtitle").Text(), "Foot pump")
	assert.Zero(t, after.Find("#form-add").Length(), "the next thing is asked for its kind first")
}
