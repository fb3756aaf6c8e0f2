package serve_test

import (
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

// A form that the server could not take is not said to be kept anywhere, but what was typed stands on the answer and one
// press sends it again.
func TestAFormThatWasNotTakenCanBeSentAgain(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	typed := url.Values{"act": {"note"}, "e": {"card/load"}, "text": {`Mind the "glass" <door> & the cat`}, "back": {"/jobs/reading/cards/load"}}
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
		again.Find("input[name]").Each(func(_ int, in *goquery.Selection) { values.Add(in.AttrOr("name", ""), in.AttrOr("value", "")) })
		assert.Equal(t, typed, values, name)
		assert.Equal(t, 303, owner.post(again.AttrOr("action", ""), values).StatusCode, name)
	}
	assert.Contains(t, owner.get("/jobs/reading/cards/load").body, "Mind the &#34;glass&#34; &lt;door&gt; &amp; the cat")
}

// What is too long for the answer to carry, and a form on its way to another host, are not drawn again.
func TestWhatCannotBeSentAgain(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	for range 200 {
		if owner.post("/jobs/reading/do", url.Values{"act": {"untick"}, "e": {"card/load"}}).StatusCode == 429 {
			break
		}
	}
	for path, values := range map[string]url.Values{"/import": {"text": {strings.Repeat("x", 100<<10)}}, "//example.org/jobs/reading/do": {"act": {"tick"}}} {
		got := owner.post(path, values)
		assert.Equal(t, 429, got.StatusCode, path)
		assert.Zero(t, got.doc(t).Find("form#again").Length(), path)
		assert.Contains(t, got.body, "Go back in your browser", path)
	}
}

// What another site sends in a visitor's name is refused in plain words, on a page.
func TestForeignFormsAreRefusedInPlainWords(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	r := owner.request("POST", "/jobs/reading/do", strings.NewReader("act=tick&e=card/load"))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.Header.Set("Origin", "https://example.org")
	got := owner.send(r)
	assert.Equal(t, 403, got.StatusCode)
	doc := got.doc(t)
	assert.Equal(t, "This did not come from here", doc.Find("h1").Text())
	assert.Contains(t, doc.Find("main").Text(), "Nothing was changed.")
	assert.Equal(t, "/", doc.Find("main a").AttrOr("href", ""))
	assert.NotContains(t, got.body, "Reading room reopening")
}
