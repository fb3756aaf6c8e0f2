package serve_test

import (
	"bytes"
	"mime/multipart"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestAFormThatWasNotAcceptedCanBeSentAgain checks that an error page shows what was typed, with a button that sends it
// again.
func TestAFormThatWasNotAcceptedCanBeSentAgain(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	typed := url.Values{"act": {"note"}, "e": {"card/load"}, "text": {`Mind the "glass" <door> & the cat`},
		"back": {"/jobs/reading/cards/load"}}
	refused := map[string]answer{}
	s.later(40 * 24 * time.Hour) // a month whose journal cannot be written, as on a full disk
	journal := filepath.Join(s.dir, "ops-202706.ndjson")
	require.NoError(t, os.Mkdir(journal, 0o700))
	refused["507"] = owner.post("/jobs/reading/do", typed)
	assert.Equal(t, 507, refused["507"].StatusCode)
	require.NoError(t, os.Remove(journal))
	for range 200 {
		if refused["429"] = owner.post("/jobs/reading/do", typed); refused["429"].StatusCode == 429 {
			break
		}
	}
	assert.Equal(t, 429, refused["429"].StatusCode)
	s.later(time.Minute)
	for name, got := range refused {
		assert.NotContains(t, got.body, "kept on your phone", name)
		assert.Contains(t, got.body, "not saved", name)
		again := got.doc(t).Find("form#again")
		require.Equal(t, 1, again.Length(), name)
		values := url.Values{}
		again.Find("input[name]").
			Each(func(_ int, in *goquery.Selection) { values.Add(in.AttrOr("name", ""), in.AttrOr("value", "")) })
		assert.Equal(t, typed, values, name)
		assert.Equal(t, 303, owner.post(again.AttrOr("action", ""), values).StatusCode, name)
	}
	assert.Contains(t, owner.get("/jobs/reading/cards/load").body, "Mind the &#34;glass&#34; &lt;door&gt; &amp; the cat")
}

// sentAgain fills the form of an answer as a browser would.
func sentAgain(t *testing.T, got answer) (string, url.Values) {
	t.Helper()
	again := got.doc(t).Find("form#again")
	require.Equal(t, 1, again.Length(), got.body)
	values := url.Values{}
	again.Find("input[name]").
		Each(func(_ int, in *goquery.Selection) { values.Add(in.AttrOr("name", ""), in.AttrOr("value", "")) })
	again.Find("textarea[name]").Each(func(_ int, in *goquery.Selection) {
		values.Add(in.AttrOr("name", ""), strings.TrimPrefix(in.Text(), "\n"))
	})
	return again.AttrOr("action", ""), values
}

// upload posts a file as the import page does.
func (p *phone) upload(path, field, text string) answer {
	var body bytes.Buffer
	w := multipart.NewWriter(&body)
	part, err := w.CreateFormFile(field, "job.json")
	require.NoError(p.t, err)
	_, err = part.Write([]byte(text))
	require.NoError(p.t, err)
	require.NoError(p.t, w.WriteField("text", ""))
	require.NoError(p.t, w.Close())
	r := p.request("POST", path, &body)
	r.Header.Set("Content-Type", w.FormDataContentType())
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	return p.send(r)
}

// TestErrorPagesKeepWhatWasTyped checks every error that a form may meet.
func TestErrorPagesKeepWhatWasTyped(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	file := owner.get("/jobs/reading/export").body
	require.Contains(t, file, `"garlandry"`)
	long := strings.Repeat("A long note. ", 20<<10)
	busy := func() {
		for range 200 {
			if owner.post("/jobs/reading/do", url.Values{"act": {"untick"}, "e": {"card/load"}}).StatusCode == 429 {
				return
			}
		}
		t.Fatal("the limit was never reached")
	}
	busy()
	uploaded := owner.upload("/import", "file", file)
	busy()
	noted := owner.post("/import", url.Values{"text": {long}})
	joined := owner.post("/jobs/reading/share/new",
		url.Values{"name": {strings.Repeat("Ines ", 2000)}, "role": {"helper"}})
	typed := url.Values{"act": {"note"}, "e": {"card/load"}, "text": {"Mind the cat"},
		"back": {"/jobs/reading/cards/load"}}
	stranger := s.stranger().post("/jobs/reading/do", typed)
	s.later(time.Minute)
	for name, row := range map[string]struct {
		got    answer
		status int
		path   string
		want   url.Values
	}{
		"a file":      {uploaded, 429, "/import", url.Values{"text": {file}}},
		"a long form": {noted, 429, "/import", url.Values{"text": {long}}},
		"too large a form": {joined, 413, "/jobs/reading/share/new", url.Values{"name": {strings.Repeat("Ines ", 2000)},
			"role": {"helper"}}},
		"not signed in": {stranger, 401, "/jobs/reading/do", typed},
	} {
		assert.Equal(t, row.status, row.got.StatusCode, name)
		path, values := sentAgain(t, row.got)
		assert.Equal(t, row.path, path, name)
		assert.Equal(t, row.want, values, name)
	}
	path, values := sentAgain(t, uploaded)
	assert.Equal(t, 303, owner.post(path, values).StatusCode, "the file is imported")

	helper, _ := s.helper(owner)
	s.later(60 * 24 * time.Hour)
	late := helper.post("/jobs/reading/do",
		url.Values{"act": {"note"}, "e": {"card/load"}, "text": {"The lift is broken"}})
	assert.Equal(t, 403, late.StatusCode)
	assert.Contains(t, late.doc(t).Find("#typed").Text(), "The lift is broken", "the text can be copied")
}

// TestFormsThatCannotBeSentAgain checks that forms that are too long, from another site or for another host are not
// shown again.
func TestFormsThatCannotBeSentAgain(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	got := owner.post("/import", url.Values{"text": {strings.Repeat("x", 6<<20)}})
	assert.Equal(t, 413, got.StatusCode)
	assert.Zero(t, got.doc(t).Find("form#again").Length())
	assert.Contains(t, got.body, "Go back in your browser")
	for range 200 {
		if owner.post("/jobs/reading/do", url.Values{"act": {"untick"}, "e": {"card/load"}}).StatusCode == 429 {
			break
		}
	}
	got = owner.post("//example.org/jobs/reading/do", url.Values{"act": {"tick"}})
	assert.Equal(t, 429, got.StatusCode)
	assert.Zero(t, got.doc(t).Find("form#again").Length())
	assert.Contains(t, got.body, "Go back in your browser")
	r := owner.request("POST", "/jobs/reading/share/new", strings.NewReader("name="+strings.Repeat("x", 5000)))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.Header.Set("Sec-Fetch-Site", "cross-site")
	got = owner.send(r)
	assert.Equal(t, 413, got.StatusCode)
	assert.Zero(t, got.doc(t).Find("form#again").Length(), "another site's form must not be sent as ours")
}

// TestForeignFormsAreRefusedInPlainWords checks that a request from another site in a visitor's name is refused with a
// page that explains it.
func TestForeignFormsAreRefusedInPlainWords(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	r := owner.request("POST", "/jobs/reading/do", strings.NewReader("act=tick&e=card/load"))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.Header.Set("Origin", "https://example.org")
	got := owner.send(r)
	assert.Equal(t, 403, got.StatusCode)
	doc := got.doc(t)
	assert.Equal(t, "This came from another website", doc.Find("h1").Text())
	assert.Contains(t, doc.Find("main").Text(), "Nothing was changed.")
	assert.Equal(t, "/", doc.Find("main a").AttrOr("href", ""))
	assert.NotContains(t, got.body, "Reading room reopening")
}
