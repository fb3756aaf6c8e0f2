package main

import (
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestOfflineCalculatorsInTheBrowser checks that a calculator works while the server is down, after one visit.
func TestOfflineCalculatorsInTheBrowser(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	p := newPhone(t, t.TempDir())
	p.join(server.link, "")
	p.sees("Reading room")
	p.ready()
	p.until(`document.querySelector('#state').innerText.includes('hared')`) // the phone knows its user
	server.stop()
	p.open(server.address + "/calc/clusters")
	p.ready()
	p.fill(`#page form [name=length]`, "20ft")
	p.fill(`#page form [name=recipe]`, "2x11@9.5")
	p.until(`/(^|\D)40(\D|$)/.test(document.querySelector('#page').innerText)`) // two quads of 9.5 to the foot
	p.shot("calc-offline")
}

// TestInstallCriteriaInTheBrowser checks Chromium's criteria for an installable app: manifest, icons, and an active
// worker with a fetch handler.
func TestInstallCriteriaInTheBrowser(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	p := newPhone(t, t.TempDir())
	p.join(server.link, "")
	p.ready()
	found := p.text(
		`(window.manifestFound = '', fetch(document.querySelector('link[rel=manifest]').href)
			.then(r => r.json()).then(async m => {
		const icons = await Promise.all(m.icons.map(i =>
			fetch(i.src).then(r => r.ok ? i.sizes + ' ' + i.purpose : 'missing ' + i.src)));
		const shots = await Promise.all(m.screenshots.map(i =>
			fetch(i.src).then(r => r.ok ? i.form_factor : 'missing ' + i.src)));
		window.manifestFound = [m.id, m.name, m.start_url, m.display, icons.join('|'), shots.join('|')].join(';');
	}), '')`,
	)
	assert.Empty(t, found)
	p.until(`window.manifestFound`)
	found = p.text(`window.manifestFound`)
	assert.NotContains(t, found, "missing")
	for _, want := range []string{"Garlandry", "standalone", "192x192 any", "512x512 any",
		"512x512 maskable", "narrow", "wide"} {
		assert.Contains(t, found, want)
	}
}

// TestTicksWithScriptsOff ticks a card with links and forms only.
func TestTicksWithScriptsOff(t *testing.T) {
	server := startServer(t, t.TempDir(), "", true)
	jar, err := cookiejar.New(nil)
	require.NoError(t, err)
	client := &http.Client{Jar: jar}
	_, token, _ := strings.Cut(server.link, "#")
	answer, err := client.PostForm(server.address+"/j", url.Values{"token": {token}})
	require.NoError(t, err)
	home := document(t, answer)
	job, there := home.Find(`a[href^="/jobs/"]`).First().Attr("href")
	require.True(t, there)
	answer, err = client.Get(server.address + job + "/cards")
	require.NoError(t, err)
	cards := document(t, answer)
	form := cards.Find(`form:has(input[name="act"][value="tick"])`).First()
	require.Equal(t, 1, form.Length(), "a card can be ticked from the list")
	values := url.Values{}
	form.Find("input").
		Each(func(_ int, in *goquery.Selection) { values.Set(in.AttrOr("name", ""), in.AttrOr("value", "")) })
	answer, err = client.PostForm(server.address+form.AttrOr("action", ""), values)
	require.NoError(t, err)
	after := document(t, answer)
	entity := values.Get("e")
	assert.Equal(t, 1,
		after.Find(`#page form:has(input[name="act"][value="untick"]):has(input[name="e"][value="`+entity+`"])`).Length(),
		"no form to untick %s", entity)
}

func document(t *testing.T, answer *http.Response) *goquery.Document {
	t.Helper()
	defer answer.Body.Close()
	require.Less(t, answer.StatusCode, 400)
	doc, err := goquery.NewDocumentFromReader(answer.Body)
	require.NoError(t, err)
	return doc
}
