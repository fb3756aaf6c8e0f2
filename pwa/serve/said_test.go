package serve_test

import (
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// toast returns what the toast of a page says.
func (a answer) toast(t *testing.T) string { return strings.TrimSpace(a.doc(t).Find("#flash").Text()) }

// TestAPlainFormIsConfirmed posts forms as a browser without scripts does. The page that follows says what happened,
// once, and to nobody else.
func TestAPlainFormIsConfirmed(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	tick := url.Values{"act": {"tick"}, "e": {"card/look"}, "back": {"/jobs/reading/cards?open=1"}}
	posted := func() string {
		t.Helper()
		got := owner.post("/jobs/reading/do", tick)
		require.Equal(t, 303, got.StatusCode, got.body)
		return got.Header.Get("Location")
	}
	to := posted()
	assert.Empty(t, helper.get(to).toast(t), "nobody else is told")
	assert.Empty(t, owner.get("/jobs/reading/pack").toast(t), "another page says nothing")
	shown := owner.get(to)
	assert.Contains(t, shown.toast(t), ": ")
	assert.Equal(t, "untick", shown.doc(t).Find(`#flash [name="act"]`).AttrOr("value", ""), "it can be taken back")
	assert.Empty(t, owner.get(to).toast(t), "once")

	to = posted()
	s.later(61 * time.Second)
	assert.Empty(t, owner.get(to).toast(t), "not a minute later")

	for _, row := range []struct {
		name, path string
		form       url.Values
		says       string
	}{
		{"end a link", "/jobs/reading/share/end", url.Values{"link": {s.linkID(t)}}, "Ended the link."},
		{"accept nothing", "/jobs/reading/share/keep", url.Values{}, "Nothing was changed."},
		{"delete a job", "/jobs/other/delete", url.Values{}, "Deleted."},
		{"restore it", "/deleted", url.Values{"job": {"other"}}, "Restored."},
	} {
		got := owner.post(row.path, row.form)
		require.Equal(t, 303, got.StatusCode, "%s: %s", row.name, got.body)
		shown := owner.get(got.Header.Get("Location") + "?from=server")
		assert.Contains(t, shown.toast(t), row.says, row.name)
	}
}

// linkID returns the id of the only link of "reading".
func (s *site) linkID(t *testing.T) string {
	t.Helper()
	links, err := s.store.Links("reading")
	require.NoError(t, err)
	require.Len(t, links, 1)
	return links[0].ID
}
