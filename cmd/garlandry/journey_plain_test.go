package main

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// withoutScripts starts a phone whose pages run no scripts.
func withoutScripts(t *testing.T) *phone {
	t.Helper()
	p := newPhone(t, t.TempDir())
	p.scripts(false)
	return p
}

// joinsByHand joins without scripts: the page cannot read the link, so its last part is typed.
func (p *phone) joinsByHand(link, name string) {
	p.t.Helper()
	p.open(link)
	_, token, _ := strings.Cut(link, "#")
	token, _, _ = strings.Cut(token, "&")
	if p.text(`document.querySelector('#join details')?.open`) == "false" {
		p.tapped(`#join details summary`)
	}
	p.fill(`#join-code`, token)
	if name != "" {
		p.fill(`#join-name`, name)
	}
	p.tapped(`#join button[type=submit]`)
}

// tapped taps the middle of what is on the screen, as a finger does.
func (p *phone) tapped(selector string) {
	p.t.Helper()
	p.until(fmt.Sprintf(`document.readyState === 'complete' && document.querySelector(%q)`, selector))
	p.check(p.browser.Tap(selector))
}

// toasted waits for what the toast says, and checks that it is on the screen.
func (p *phone) toasted(words string) {
	p.t.Helper()
	p.until(`document.readyState === 'complete' && ` + toasts(words))
	assert.Equal(p.t, "true", p.text(inView+`(document.querySelector('#flash > *'))`), "the toast is in view")
}

// TestBrowserWithoutScripts plans a new job, ticks, takes the tick back and makes a helper's link with scripts off. The
// helper joins with scripts off too, and ticks. What was done is confirmed each time.
func TestBrowserWithoutScripts(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", false)
	owner := withoutScripts(t)
	owner.joinsByHand(server.link, "Dora")
	owner.tapped(`#page a[href="/new"]`)
	for _, pick := range []string{`[name=build][value=garland]`, `[name=build][value=column]`,
		`[name=colours][value=coral]`, `[name=colours][value=sand]`} {
		owner.tapped(`#new-job label:has(` + pick + `)`)
	}
	owner.tapped(`#new-job button.go`)
	owner.until(`document.querySelector('#next-card')`)
	owner.sees("Garland and 2 columns, ")
	owner.toasted("Garland and 2 columns")

	owner.tapped(`#next-card a.button`)
	owner.tapped(`#page form:has([name=act][value=tick]) button`)
	owner.toasted("Get the balloons")
	owner.tapped(`#flash form button`)
	owner.toasted("Reopened")
	owner.until(`document.querySelector('#page form:has([name=act][value=tick])')`)

	at := owner.text(`location.pathname.split('/').slice(0, 3).join('/')`)
	owner.open(server.address + at + "/share")
	owner.tapped(`#share-crew button[type=submit]`)
	owner.until(`document.querySelector('#fresh-url')`)
	link := owner.text(`document.querySelector('#fresh-url').value`)
	require.Contains(t, link, "/j#")

	helper := withoutScripts(t)
	helper.joinsByHand(link, "Ines")
	helper.until(`location.pathname.endsWith('/next')`)
	helper.tapped(`#nav a[href$="/cards"]`)
	helper.tapped(`#page form:has([name=act][value=tick]) .box`)
	helper.toasted(": ")
	helper.tapped(`.wayback`)
	helper.until(`document.readyState === 'complete' && location.pathname.endsWith('/next')`)
	assert.Equal(t, "", helper.text(`document.getElementById('flash').innerText`), "said once")
	owner.open(server.address + at + "/history")
	owner.sees("Ines")
}
