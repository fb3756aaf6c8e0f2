package main

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"garlandry/app/job"
	wire "garlandry/app/sync"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// These details of the test's client are for the owner only.
const (
	clientName   = "Wilhelmina Overcliffe"
	clientAgreed = "Price 1480 in two halves"
)

// withClient returns an owner's HTTP client and a job whose brief names a client.
func withClient(t *testing.T, server *running) (*http.Client, string) {
	t.Helper()
	owner := visitor(t, server.link, "")
	id := anyJob(t, owner, server.address)
	postForm(t, owner, server.address+"/jobs/"+id+"/brief", "#edit-brief",
		url.Values{"contact.name": {clientName}, "contact.agreed": {clientAgreed}}, 200)
	answer, err := owner.Get(server.address + "/jobs/" + id + "/brief")
	require.NoError(t, err)
	page := document(t, answer)
	require.Contains(t, htmlOf(t, page), clientName, "the owner sees the client")
	require.Contains(t, htmlOf(t, page), clientAgreed, "the owner sees what was agreed")
	return owner, id
}

func htmlOf(t *testing.T, d *goquery.Document) string {
	t.Helper()
	text, err := d.Html()
	require.NoError(t, err)
	return text
}

// postForm fills in a rendered form and posts it.
func postForm(t *testing.T, c *http.Client, page, form string, typed url.Values, status int) {
	t.Helper()
	answer, err := c.Get(page)
	require.NoError(t, err)
	drawn := document(t, answer).Find(form)
	require.Equal(t, 1, drawn.Length(), "%s has %s", page, form)
	values := url.Values{}
	drawn.Find("input[name], textarea[name]").Each(func(_ int, in *goquery.Selection) {
		_, on := in.Attr("checked")
		if kind := in.AttrOr("type", ""); (kind == "radio" || kind == "checkbox") && !on {
			return
		}
		if in.Is("textarea") {
			values.Add(in.AttrOr("name", ""), in.Text())
		} else {
			values.Add(in.AttrOr("name", ""), in.AttrOr("value", ""))
		}
	})
	for name, list := range typed {
		values[name] = list
	}
	answer, err = c.PostForm(page, values)
	require.NoError(t, err)
	defer answer.Body.Close()
	require.Equal(t, status, answer.StatusCode, page)
}

// freshLink has the owner make a link and returns its address.
func freshLink(t *testing.T, owner *http.Client, address, id, name, role string) string {
	t.Helper()
	answer, err := owner.PostForm(address+"/jobs/"+id+"/share/new", url.Values{"name": {name}, "role": {role}})
	require.NoError(t, err)
	link, there := document(t, answer).Find("#fresh-url").Attr("value")
	require.True(t, there)
	return link
}

// TestLeadInTheBrowser checks that a lead's edits of a piece and a card reach the owner, and that the lead sees no
// client, no price, no settings and no links.
func TestLeadInTheBrowser(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	owner, id := withClient(t, server)
	at := server.address + "/jobs/" + id
	lead := newPhone(t, t.TempDir())
	lead.join(freshLink(t, owner, server.address, id, "Bea", string(job.Lead)), "Bea")
	lead.until(`location.pathname.startsWith('/jobs/')`)
	lead.ready()
	lead.until(`document.querySelector('#state').innerText.includes('hared')`)

	leadEdits(lead, at)
	answer, err := owner.Get(at + "/pieces/desk")
	require.NoError(t, err)
	assert.Contains(t, document(t, answer).Find(`#edit-piece [name=length_mm]`).AttrOr("value", ""), "12",
		"the owner has the lead's length")
	answer, err = owner.Get(at + "/cards/load")
	require.NoError(t, err)
	assert.Contains(t, document(t, answer).Text(), "Side door first")
	answer, err = owner.Get(at + "/change/card/load")
	require.NoError(t, err)
	assert.Equal(t, "25", document(t, answer).Find(`#edit-card [name=minutes]`).AttrOr("value", ""),
		"and the lead's minutes")

	leadSeesNoClient(t, lead, at, id)
	stored := lead.promised(
		`new Promise((done, failed) => { const open = indexedDB.open('garlandry'); open.onerror = failed;
			open.onsuccess = () => {
		const all = open.result.transaction('text').objectStore('text').getAll();
			all.onerror = failed; all.onsuccess = () => done(all.result.join('\n')); }; })`,
	)
	assert.Contains(t, stored, "Side door first", "the dump must cover what the phone stores")
	assert.NotContains(t, stored, clientName)
	assert.NotContains(t, stored, clientAgreed)
}

// leadSeesNoClient reads every page that a lead may open, and requests those that are refused.
func leadSeesNoClient(t *testing.T, lead *phone, at, id string) {
	t.Helper()
	for _, path := range []string{"", "/next", "/pieces", "/pieces/desk",
		"/counts", "/pack", "/cards", "/cards/load", "/history", "/added"} {
		lead.open(at + path)
		lead.ready()
		page := lead.text(`document.documentElement.outerHTML`)
		assert.NotContains(t, page, clientName, path)
		assert.NotContains(t, page, clientAgreed, path)
		for _, link := range []string{"/share", "/brief", "/figures", "/export", "/colours", "/kit", "/crew"} {
			assert.Equal(t, "null", lead.text(`document.querySelector('a[href="/jobs/`+id+link+`"]')`), "%s leads to %s", path,
				link)
		}
	}
	for _, path := range []string{"/share", "/brief", "/figures", "/export"} {
		got := lead.promised(`fetch('/jobs/` + id + path + `?from=server').then(async r => r.status + ' ' + await r.text())`)
		assert.Contains(t, []string{"403", "404"}, got[:3], path)
		assert.NotContains(t, got, clientName, path)
	}
}

// leadEdits changes a piece and a card, and writes a note.
func leadEdits(lead *phone, at string) {
	lead.open(at + "/pieces/desk")
	lead.ready()
	lead.fill(`#edit-piece [name=length_mm]`, "12 ft")
	lead.tap(`#edit-piece button.go`)
	lead.until(`location.pathname.endsWith('/pieces')`) // it was saved right after typing
	lead.open(at + "/change/card/load")
	lead.ready()
	lead.fill(`#edit-card [name=minutes]`, "25")
	lead.tap(`#edit-card button.go`)
	lead.until(`location.pathname.endsWith('/cards/load')`)
	lead.fill(`form:has([name=act][value=note]) [name=text]`, "Side door first")
	lead.tap(`form:has([name=act][value=note]) button`)
	lead.until(`document.querySelector('#note-text').defaultValue.includes('Side door first')`) // rendered, not only typed
	lead.until(`document.documentElement.dataset.waiting === '0'`)
	lead.shot("lead-card")
}

// TestHelperMayNotEdit posts what only leads and owners may change, by form and by sync. Everything is refused and
// nothing is written.
func TestHelperMayNotEdit(t *testing.T) {
	server := startServer(t, t.TempDir(), "", true)
	owner, id := withClient(t, server)
	at := server.address + "/jobs/" + id
	helper := visitor(t, freshLink(t, owner, server.address, id, "Ines", string(job.Helper)), "Ines")
	before := records(t, owner, server.address, id)
	own := records(t, owner, server.address, id+"/own")
	for path, typed := range map[string]url.Values{
		"/pieces/desk":      {"kind": {"garland"}, "name": {"Mine"}, "length_mm": {"30 ft"}, "recipe": {"3x11@10"}},
		"/pieces/new":       {"kind": {"free"}, "name": {"Mine"}},
		"/pieces":           {"act": {"remove"}, "id": {"desk"}},
		"/change/card/load": {"minutes": {"1"}, "note": {"mine"}},
		"/added":            {"act": {"add"}, "title": {"mine"}},
		"/brief":            {"title": {"Mine"}, "contact.name": {"Mine"}},
		"/colours":          {"act": {"add"}, "name": {"Mine"}},
		"/figures":          {"title": {"Mine"}},
		"/away":             {},
		"/do":               {"act": {"note"}, "e": {"card/load"}, "text": {"mine"}},
		"/share/new":        {"name": {"Mine"}, "role": {"lead"}},
	} {
		answer, err := helper.PostForm(at+path, typed)
		require.NoError(t, err)
		answer.Body.Close()
		want := 403
		if strings.HasPrefix(path, "/share") {
			want = 404 // the page does not exist for helpers
		}
		assert.Equal(t, want, answer.StatusCode, path)
	}
	now := time.Now().UnixMilli()
	change := func(n uint64, entity, field, value string) job.Op {
		return job.Op{ID: newID(), Device: "inesphone", Number: n, Version: 1, Kind: job.Set, Entity: entity,
			Field: field, Value: []byte(value), Wall: now}
	}
	answer, status, err := exchange(helper, server.address, id, wire.Request{Device: "inesphone", Now: now, Ops: []job.Op{
		change(
			1,
			"piece/desk",
			"length_mm",
			"9144",
		), change(2, "brief", "title", `"Mine"`),
		change(3, "card/load", "note", `"mine"`), change(4, "own/contact", "name", `"Mine"`)}})
	require.NoError(t, err)
	require.Equal(t, 200, status)
	require.Len(t, answer.Acks, 4)
	for _, a := range answer.Acks {
		assert.Contains(t, []wire.Result{wire.Denied, wire.Invalid}, a.Result, a.Why)
	}
	_, status, err = exchange(helper, server.address, id+"/own", wire.Request{Device: "inesphone", Now: now})
	require.NoError(t, err)
	assert.Equal(t, 403, status)
	assert.Equal(t, before, records(t, owner, server.address, id), "nothing was written")
	assert.Equal(t, own, records(t, owner, server.address, id+"/own"), "nor to the owner's private log")
}
