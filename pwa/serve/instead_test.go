package serve_test

import (
	"net/url"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestAnOwnerDoesNotBecomeAHelperByAccident checks that an owner who opens a helper's link stays the owner unless they
// confirm joining as a helper.
func TestAnOwnerDoesNotBecomeAHelperByAccident(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	token := owner.link(url.Values{"name": {"Ines"}, "role": {"helper"}})
	mine := owner.cookie
	got := owner.post("/j", url.Values{"token": {token}, "name": {"Ines"}})
	assert.Equal(t, 409, got.StatusCode)
	assert.Equal(t, mine, owner.cookie)
	assert.Equal(t, 200, owner.get("/jobs/other").StatusCode)
	form := got.doc(t).Find("#join-instead")
	again := url.Values{}
	for _, name := range []string{"token", "name", "instead"} {
		again.Set(name, form.Find(`input[name="`+name+`"]`).AttrOr("value", ""))
	}
	require.Equal(t, token, again.Get("token"))
	got = owner.post("/j", again)
	require.Equal(t, 303, got.StatusCode)
	assert.Equal(t, "/jobs/reading/next", got.Header.Get("Location"))
	assert.Equal(t, 404, owner.get("/jobs/other").StatusCode)
	assert.NotContains(t, owner.get("/jobs/reading").body, clientName)
}

// TestAWrongOwnerCodeKeepsTheOwnersForm checks that a wrong code on the owner's form shows the owner's form again.
func TestAWrongOwnerCodeKeepsTheOwnersForm(t *testing.T) {
	s := newSite(t)
	p := s.stranger()
	action := p.get("/j?as=owner").doc(t).Find("#join").AttrOr("action", "")
	require.Equal(t, "/j?as=owner", action)
	got := p.post(action, url.Values{"code": {"wrong <b>code</b>"}})
	assert.Equal(t, 404, got.StatusCode)
	form := got.doc(t).Find("#join")
	assert.Equal(t, "/j?as=owner", form.AttrOr("action", ""))
	assert.Contains(t, got.doc(t).Find("#page").Text(), "Open your jobs here", "not the page for helpers")
	assert.Equal(t, "wrong <b>code</b>", form.Find(`input[name="code"]`).AttrOr("value", ""))
	assert.NotEmpty(t, form.Find(".wrong").Text())
	assert.Equal(t, "/j", p.get("/j").doc(t).Find("#join").AttrOr("action", ""))
}
