package serve_test

import (
	"net/url"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestLinksForTheCrew makes a link for one of the crew with one tap. Whoever has a link shows how it stands, and gets
// another one when it has ended.
func TestLinksForTheCrew(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	page := owner.get("/jobs/reading/share").doc(t)
	crew := page.Find("#share-crew li")
	require.Equal(t, 3, crew.Length())
	form := page.Find(`#share-crew form:has(input[name="name"][value="Ines"])`)
	require.Equal(t, 1, form.Length())
	assert.Equal(t, "Make a link for Ines", form.Find("button").Text())
	values := url.Values{"name": {form.Find(`[name="name"]`).AttrOr("value", "")},
		"role": {form.Find(`[name="role"]`).AttrOr("value", "")}}
	made := owner.post(form.AttrOr("action", ""), values).doc(t)
	assert.Equal(t, 1, made.Find("#fresh-link").Length(), "the link is shown once")
	assert.Empty(t, made.Find("#share-new [name=name]").AttrOr("value", ""), "the form for somebody else is empty")
	links, err := s.store.Links("reading")
	require.NoError(t, err)
	require.Len(t, links, 1)
	assert.Equal(t, []string{"Ines", "helper"}, []string{links[0].Name, string(links[0].Role)})

	row := owner.get("/jobs/reading/share").doc(t).Find(`#share-crew li:contains("Ines")`)
	assert.Contains(t, row.Text(), "not opened yet")
	assert.Equal(t, "End Ines’s link", row.Find("button").Text(), "one link is enough")
	assert.Zero(t, owner.get("/jobs/reading/share").doc(t).Find("#links li").Length(), "nobody is listed twice")
	owner.post("/jobs/reading/share/end", url.Values{"link": {links[0].ID}})
	row = owner.get("/jobs/reading/share").doc(t).Find(`#share-crew li:contains("Ines")`)
	assert.Contains(t, row.Text(), "ended")
	assert.Equal(t, "Make a link for Ines", row.Find("button").Text())

	owner.post("/jobs/reading/share/new", url.Values{"name": {"Nora"}, "role": {"lead"}})
	assert.Contains(t, owner.get("/jobs/reading/share").doc(t).Find("#links li").Text(), "Nora", "she is not of the crew")
}
