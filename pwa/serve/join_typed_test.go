package serve_test

import (
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"garlandry/app/seclog"
	"garlandry/pwa/serve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// typedCode presses the button that shows a short code, and returns the code as it is shown.
func (p *phone) typedCode() string {
	form := p.get("/phone/devices").doc(p.t).Find("#app-code")
	require.Equal(p.t, 1, form.Length(), "the button is missing")
	got := p.post(form.AttrOr("action", ""), nil)
	require.Equal(p.t, 200, got.StatusCode, got.body)
	assert.Equal(p.t, "no-store", got.Header.Get("Cache-Control"))
	code := got.doc(p.t).Find("#the-code b").Text()
	require.Regexp(p.t, `^[2-9C-X]{3} [2-9C-X]{3} [2-9C-X]{3}$`, code)
	return code
}

// typeCode types a code on the first page of an app that knows nobody.
func (p *phone) typeCode(code string) answer {
	form := p.get("/").doc(p.t).Find("#type-code")
	require.Equal(p.t, 1, form.Length(), "the field is missing")
	require.Equal(p.t, 1, form.Find(`input[name="appcode"]`).Length())
	return p.post(form.AttrOr("action", ""), url.Values{"appcode": {code}})
}

// TestATypedCodeOpensTheInstalledApp checks for each role that a short code lets the person's installed app in once,
// with the same rights, as a device that is listed and can be shut out.
func TestATypedCodeOpensTheInstalledApp(t *testing.T) {
	for _, row := range []struct {
		role, home string
		other      int // the answer for a job that is not shared with helpers
	}{{"owner", "/", 200}, {"lead", "/jobs/reading/next", 404}, {"helper", "/jobs/reading/next", 404}} {
		t.Run(row.role, func(t *testing.T) {
			s := newSite(t)
			owner := s.owner()
			browser, name := s.owner(), "Dora"
			if row.role != "owner" {
				name = "Ines"
				token := owner.link(url.Values{"name": {name}, "role": {row.role}})
				browser = s.stranger()
				require.Equal(t, 303, browser.post("/j", url.Values{"token": {token}, "name": {name}}).StatusCode)
			}
			mine := browser.cookie
			code := browser.typedCode()
			app := s.stranger()
			got := app.typeCode(" " + strings.ToLower(code))
			require.Equal(t, 303, got.StatusCode, got.body)
			assert.Equal(t, row.home, got.Header.Get("Location"))
			require.NotNil(t, app.cookie)
			assert.NotEqual(t, mine.Value, app.cookie.Value, "a session of its own")
			assert.Equal(t, row.other, app.get("/jobs/other").StatusCode)
			assert.Equal(t, 200, app.get("/jobs/reading/pack").StatusCode)
			assert.Contains(t, app.get("/api/v1/me").body, name)

			again := s.stranger()
			got = again.typeCode(code)
			assert.Equal(t, 404, got.StatusCode, "it works once")
			assert.Contains(t, got.doc(t).Find("#typed-code-error").Text(), "No such code")
			assert.Equal(t, code, got.doc(t).Find("#typed-code").AttrOr("value", ""), "what was typed stays")
			assert.Nil(t, again.cookie)

			other := browser.get("/phone/devices").doc(t).Find("#own-devices li")
			if row.role == "owner" {
				require.Equal(t, 2, other.Length(), "the app and the other browser")
				form := other.First().Find(`form[action="/phone/end"]`)
				require.Contains(t, other.First().Text(), "installed app")
				id := form.Find(`input[name="device"]`).AttrOr("value", "")
				require.Equal(t, 303, browser.post("/phone/end", url.Values{"device": {id}}).StatusCode)
				assert.Equal(t, 200, browser.get("/").StatusCode, "ending the app leaves its browser in")
			} else {
				require.Equal(t, 1, other.Length())
				assert.Contains(t, other.Text(), "installed app")
				assert.Zero(t, other.Find("form").Length(), "only whoever holds a device and the owner may name it")
				links, err := s.store.Links("reading")
				require.NoError(t, err)
				require.Equal(t, 303, owner.post("/jobs/reading/share/end", url.Values{"link": {links[0].ID}}).StatusCode)
				assert.Equal(t, 403, browser.post("/phone/code", nil).StatusCode, "a closed link makes no code")
				assert.Equal(t, 403, browser.get("/phone/devices").StatusCode)
			}
			assert.Equal(t, 403, app.get("/").StatusCode, "shut out")
		})
	}
}

// TestTypedCodesEnd checks what ends a short code, and what the page then says.
func TestTypedCodesEnd(t *testing.T) {
	for _, row := range []struct {
		name, says string
		end        func(s *site, owner, helper *phone)
	}{
		{"ten minutes later", "more than 10 minutes old", func(s *site, _, _ *phone) { s.later(10 * time.Minute) }},
		{"another one is shown", "No such code", func(_ *site, _, helper *phone) { helper.typedCode() }},
		{"signing out", "No such code", func(_ *site, _, helper *phone) { helper.leave(nil) }},
		{"the link ends", "revoked", func(s *site, owner, _ *phone) {
			links, err := s.store.Links("reading")
			require.NoError(s.t, err)
			owner.post("/jobs/reading/share/end", url.Values{"link": {links[0].ID}})
		}},
	} {
		t.Run(row.name, func(t *testing.T) {
			s := newSite(t)
			owner := s.owner()
			helper, _ := s.helper(owner)
			code := helper.typedCode()
			row.end(s, owner, helper)
			app := s.stranger()
			got := app.typeCode(code)
			assert.Equal(t, 404, got.StatusCode)
			assert.Contains(t, got.doc(t).Find("#typed-code-error").Text(), row.says)
			assert.Nil(t, app.cookie)
		})
	}
	s := newSite(t)
	code := s.owner().typedCode()
	s.later(10*time.Minute - time.Second)
	assert.Equal(t, 303, s.stranger().typeCode(code).StatusCode, "it lasts to the end")
}

// TestTypedCodesAreHardToGuess checks the limits on tries: by address, and of all addresses together, whichever form
// the tries come by.
func TestTypedCodesAreHardToGuess(t *testing.T) {
	s := newSite(t, func(c *serve.Config) { c.Proxies = []string{"127.0.0.1"} })
	try := func(from, path, field, guess string) int {
		p := s.stranger()
		r := p.request("POST", path, strings.NewReader(url.Values{field: {guess}, "name": {"x"}}.Encode()))
		r.Header.Set("Content-Type", formType)
		r.Header.Set("X-Forwarded-For", from)
		got := p.send(r)
		assert.Nil(t, p.cookie)
		return got.StatusCode
	}
	tries := 0
	for ; tries < 100 && try("203.0.113.1", "/j/code", "appcode", "222222222") == 404; tries++ {
	}
	assert.Equal(t, 15, tries, "from one address")
	s.later(time.Hour)
	fields := map[string]string{"/j/code": "appcode", "/j": "code"}
	for tries = 0; tries < 200; tries++ {
		path := []string{"/j/code", "/j"}[tries%2]
		if try(fmt.Sprintf("2001:db8::%x", tries+1), path, fields[path], "222222222") != 404 {
			break
		}
	}
	assert.Equal(t, 60, tries, "from many addresses")
	assert.Equal(t, 429, try("2001:db8::ffff", "/j", "code", "222 222 222"))
	s.later(30 * time.Second)
	code := s.owner().typedCode()
	assert.Equal(t, 303, s.stranger().typeCode(code).StatusCode, "after a pause")
	code = strings.ReplaceAll(s.owner().typedCode(), " ", "")
	p := s.stranger()
	p.post("/j/open", url.Values{"i": {code}})
	assert.Nil(t, p.cookie, "no other address takes it, since tries are not counted together there")
}

// TestOnlyOurPagesMakeAndTakeTypedCodes checks that another site can neither make a code in a visitor's name nor sign
// a visitor in by one.
func TestOnlyOurPagesMakeAndTakeTypedCodes(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	code := owner.typedCode()
	for _, headers := range []map[string]string{{"Sec-Fetch-Site": "cross-site"}, {"Sec-Fetch-Site": "same-site"},
		{"Origin": "https://example.org"}, {"Origin": "null"}} {
		for _, path := range []string{"/phone/code", "/phone/name", "/phone/end", "/j/code"} {
			victim := &phone{site: s, cookie: owner.cookie}
			if path == "/j/code" {
				victim = s.stranger()
			}
			before := victim.cookie
			r := victim.request(http.MethodPost, path, strings.NewReader(url.Values{"appcode": {code}}.Encode()))
			r.Header.Set("Content-Type", formType)
			for name, value := range headers {
				r.Header.Set(name, value)
			}
			got := victim.send(r)
			assert.Equal(t, 403, got.StatusCode, "%s %v", path, headers)
			assert.Equal(t, before, victim.cookie)
		}
	}
	for _, path := range []string{"/phone/code", "/phone/name", "/phone/end"} {
		assert.Equal(t, 401, s.stranger().post(path, nil).StatusCode, path)
	}
	assert.Equal(t, "/phone/devices", owner.get("/phone/code").Header.Get("Location"), "a GET makes nothing")
	assert.Equal(t, 303, s.stranger().typeCode(code).StatusCode, "the code must still work")
}

// TestATypedCodeAsksWhoeverIsSignedIn checks that a code of somebody else signs nobody over without being asked.
func TestATypedCodeAsksWhoeverIsSignedIn(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	mine, code := owner.cookie, helper.typedCode()
	asked := owner.post("/j/code", url.Values{"appcode": {code}})
	assert.Equal(t, 409, asked.StatusCode)
	assert.Equal(t, mine, owner.cookie)
	assert.Contains(t, asked.doc(t).Find("#page").Text(), "Open as Ines instead")
	require.Equal(t, 303, owner.open(asked).StatusCode)
	assert.Equal(t, 404, owner.get("/jobs/other").StatusCode, "a helper now, as confirmed")
	own := helper.typedCode()
	cookie := helper.cookie
	assert.Equal(t, 303, helper.post("/j/code", url.Values{"appcode": {own}}).StatusCode)
	assert.Equal(t, cookie, helper.cookie, "one's own code changes nothing")
	app := s.stranger()
	got := app.post("/j", url.Values{"code": {own}})
	assert.Equal(t, 303, got.StatusCode, "the field for links takes it too")
	assert.NotNil(t, app.cookie)
}

// TestTheSecurityLogTellsOfTypedCodes checks that making, using and failing to guess a code are logged, without it.
func TestTheSecurityLogTellsOfTypedCodes(t *testing.T) {
	s := newSite(t)
	helper, _ := s.helper(s.owner())
	code := helper.typedCode()
	s.stranger().typeCode("222222222")
	require.Equal(t, 303, s.stranger().typeCode(code).StatusCode)
	found := map[string]seclog.Event{}
	events, _ := s.server.Security.Read(func(seclog.Event) bool { return true }, 0, 100)
	for _, e := range events {
		found[e.What] = e
	}
	assert.Equal(t, "Ines", found[seclog.CodeMade].DeviceName)
	assert.Equal(t, "reading", found[seclog.CodeMade].Job)
	assert.Equal(t, "Ines", found[seclog.Installed].DeviceName)
	assert.Equal(t, seclog.NoSuchLink, found[seclog.Refused].Why)
	assert.NotEmpty(t, found[seclog.Refused].From)
	for _, text := range []string{code, strings.ReplaceAll(code, " ", "")} {
		assert.NotContains(t, s.log.String(), text)
		assert.NotContains(t, fmt.Sprint(events), text)
	}
}
