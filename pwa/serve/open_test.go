package serve_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// open posts the form of an installed app's first page, as its button does.
func (p *phone) open(page answer) answer {
	form := page.doc(p.t).Find("#join-open")
	require.Equal(p.t, 1, form.Length(), "the page must ask: %.300s", page.body)
	values := url.Values{}
	form.Find("input[name]").
		Each(func(_ int, in *goquery.Selection) { values.Set(in.AttrOr("name", ""), in.AttrOr("value", "")) })
	return p.post(form.AttrOr("action", ""), values)
}

// installCode returns the start address of the visitor's installed app.
func (p *phone) installCode() string {
	p.agent = "Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X)"
	start := startURL(p.t, p)
	require.True(p.t, strings.HasPrefix(start, "/j/open?i="), start)
	return start
}

// TestALinkToAnInstallCodeChangesNobody checks that following a link with somebody's install code changes nothing until
// the visitor confirms it.
func TestALinkToAnInstallCodeChangesNobody(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	start := helper.installCode()
	mine := owner.cookie
	for _, method := range []string{"GET", "HEAD", "GET"} {
		got := owner.send(owner.request(method, start, nil))
		assert.Equal(t, 200, got.StatusCode, method)
		assert.Empty(t, got.Header.Get("Set-Cookie"), "%s must not change the session", method)
	}
	assert.Equal(t, mine, owner.cookie)
	asked := owner.get(start)
	text := asked.doc(t).Find("#page").Text()
	assert.Contains(t, text, "This phone is Dora’s")
	assert.Contains(t, text, "Open as Ines instead")
	assert.Equal(t, "/", asked.doc(t).Find("#page a.go").AttrOr("href", ""), "staying must be the first choice")
	_, code, _ := strings.Cut(start, "?i=")
	got := owner.post("/j/open", url.Values{"i": {code}})
	assert.Equal(t, 409, got.StatusCode, "a form without the confirmation is asked again")
	assert.Equal(t, mine, owner.cookie)
	assert.Equal(t, 200, owner.get("/jobs/other").StatusCode, "still the owner")

	assert.Equal(t, 303, owner.open(asked).StatusCode, "opening the page must not use up the code")
	assert.NotEqual(t, mine.Value, owner.cookie.Value)
	assert.Equal(t, 404, owner.get("/jobs/other").StatusCode, "a helper now, as confirmed")
}

// TestAnUnusedPhoneIsAskedAsWell checks that a phone without a session must confirm too, so that an owner does not work
// under a helper's name.
func TestAnUnusedPhoneIsAskedAsWell(t *testing.T) {
	s := newSite(t)
	helper, _ := s.helper(s.owner())
	start := helper.installCode()
	fresh := s.stranger()
	for _, method := range []string{"HEAD", "GET"} {
		got := fresh.send(fresh.request(method, start, nil))
		assert.Equal(t, 200, got.StatusCode)
		assert.Empty(t, got.Header.Get("Set-Cookie"))
	}
	got := fresh.get(start)
	assert.Equal(t, 1, got.doc(t).Find("#page button").Length(), "there must be exactly one button")
	require.Equal(t, 303, fresh.open(got).StatusCode)
	assert.Equal(t, 200, fresh.get("/jobs/reading/next").StatusCode)
}

// TestOnesOwnInstallCodeJustOpensTheApp checks that a person's own browser, which is already signed in, need not
// confirm.
func TestOnesOwnInstallCodeJustOpensTheApp(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	for want, p := range map[string]*phone{"/": owner, "/jobs/reading/next": helper} {
		start, mine := p.installCode(), p.cookie
		got := p.get(start)
		assert.Equal(t, 303, got.StatusCode)
		assert.Equal(t, want, got.Header.Get("Location"))
		assert.Equal(t, mine, p.cookie)
		assert.Equal(t, 200, s.stranger().get(start).StatusCode, "the code must still work")
	}
}

// TestOtherSitesMayNotSpendInstallCodes checks that another site can neither use a code in a visitor's name nor show
// the question in a frame.
func TestOtherSitesMayNotSpendInstallCodes(t *testing.T) {
	s := newSite(t)
	helper, _ := s.helper(s.owner())
	start := helper.installCode()
	_, code, _ := strings.Cut(start, "?i=")
	for _, headers := range []map[string]string{{"Sec-Fetch-Site": "cross-site"}, {"Sec-Fetch-Site": "same-site"},
		{"Origin": "https://example.org"}, {"Origin": "null"}} {
		victim := s.stranger()
		r := victim.request(http.MethodPost, "/j/open",
			strings.NewReader(url.Values{"i": {code}, "instead": {"yes"}}.Encode()))
		r.Header.Set("Content-Type", formType)
		for name, value := range headers {
			r.Header.Set(name, value)
		}
		assert.Equal(t, 403, victim.send(r).StatusCode, headers)
		assert.Nil(t, victim.cookie, headers)
	}
	assert.Contains(t, s.stranger().get(start).Header.Get("Content-Security-Policy"), "frame-ancestors 'none'")
	fresh := s.stranger()
	assert.Equal(t, 303, fresh.open(fresh.get(start)).StatusCode, "the code must still work")
}
