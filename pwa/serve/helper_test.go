package serve_test

import (
	"net/url"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestHelperSeesOneJobAndNoClient(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	assert.Contains(t, owner.get("/jobs/reading/brief").body, clientName, "the owner must see the client")
	helper, _ := s.helper(owner)
	assert.Equal(t, 200, helper.get("/jobs/reading/next").StatusCode)
	for path, want := range map[string]int{"/jobs/other": 404, "/jobs/other/next": 404, "/jobs/reading/brief": 403,
		"/jobs/reading/export": 403, "/jobs/reading/figures": 403,
		"/jobs/reading/share": 404, "/jobs/other/share": 404, "/new": 403, "/import": 403, "/api/v1/jobs/other/events": 404} {
		got := helper.get(path)
		assert.Equal(t, want, got.StatusCode, path)
		assertNoClient(t, got, path)
	}
	seen := map[string]bool{}
	queue := []string{"/", "/jobs/reading/next", "/api/v1/me"}
	for len(queue) > 0 {
		path := queue[0]
		queue = queue[1:]
		if seen[path] {
			continue
		}
		seen[path] = true
		require.Less(t, len(seen), 500, "too many pages")
		got := helper.get(path)
		assert.Less(t, got.StatusCode, 500, path)
		assertNoClient(t, got, path)
		got.doc(t).Find("a[href]").Each(func(_ int, a *goquery.Selection) {
			to, _, _ := strings.Cut(a.AttrOr("href", ""), "#")
			if strings.HasPrefix(to, "/") {
				queue = append(queue, to)
			}
		})
	}
	assert.True(t, seen["/jobs/reading/pack"] && seen["/jobs/reading/cards"], "the crawl must reach the job's pages")

	got := helper.sync("/api/v1/jobs/reading/sync", `{"v":1,"d":"phone1","now":1}`)
	assert.Equal(t, 200, got.StatusCode)
	assert.Contains(t, got.body, "Reading room reopening")
	assertNoClient(t, got, "sync")
	assert.Equal(t, 403, helper.sync("/api/v1/jobs/reading/own/sync", `{"v":1,"d":"phone1","now":1}`).StatusCode)
	assert.Equal(t, 403, helper.sync("/api/v1/jobs/reading~own/sync", `{"v":1,"d":"phone1","now":1}`).StatusCode)
	for _, path := range []string{"/api/v1/jobs/other/sync", "/api/v1/jobs/nowhere/sync"} {
		got = helper.sync(path, `{"v":1,"d":"phone1","now":1}`)
		assert.Contains(t, []int{403, 404}, got.StatusCode, path)
		assertNoClient(t, got, path)
	}
	assert.Contains(t, owner.sync("/api/v1/jobs/reading/own/sync", `{"v":1,"d":"phone2","now":1}`).body, clientName,
		"the owner's phone must receive the client")
}

func assertNoClient(t *testing.T, got answer, where string) {
	t.Helper()
	assert.NotContains(t, got.body, clientName, where)
	assert.NotContains(t, got.body, clientAgreed, where)
}

// TestTickWithoutScripts ticks by posting the rendered form, as a browser without scripts does.
func TestTickWithoutScripts(t *testing.T) {
	s := newSite(t)
	helper, _ := s.helper(s.owner())
	page := "/jobs/reading/cards/load"
	forms := func(act string) *goquery.Selection {
		return helper.get(page).
			doc(t).
			Find(`form[action="/jobs/reading/do"]`).
			FilterFunction(func(_ int, f *goquery.Selection) bool {
				return f.Find(`input[name="act"]`).AttrOr("value", "") == act &&
					f.Find(`input[name="e"]`).AttrOr("value", "") == "card/load"
			})
	}
	form := forms("tick").First()
	require.Equal(t, 1, form.Length(), "the page needs a form to tick")
	require.Zero(t, forms("untick").Length())
	values := url.Values{}
	form.Find("input[name]").
		Each(func(_ int, in *goquery.Selection) { values.Add(in.AttrOr("name", ""), in.AttrOr("value", "")) })
	got := helper.post("/jobs/reading/do", values)
	assert.Equal(t, 303, got.StatusCode)
	assert.Equal(t, page, got.Header.Get("Location"))
	assert.NotZero(t, forms("untick").Length(), "it must be shown as done")
	assert.Zero(t, forms("tick").Length())
	assert.Equal(
		t,
		303,
		helper.post(
			"/jobs/reading/do",
			url.Values{"act": {"tick"}, "e": {"card/load"}, "back": {"https://example.org/"}},
		).StatusCode,
	)
	assert.Equal(
		t,
		"/jobs/reading",
		helper.post(
			"/jobs/reading/do",
			url.Values{"act": {"tick"}, "e": {"card/load"}, "back": {"//example.org"}},
		).Header.Get("Location"),
		"no form may redirect to another site",
	)
}

func TestOtherSitesMayNotPost(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	before := s.standing()
	for _, headers := range []map[string]string{{"Sec-Fetch-Site": "cross-site"}, {"Sec-Fetch-Site": "same-site"},
		{"Origin": "https://example.org"}, {"Origin": "null"}} {
		for _, path := range []string{"/j", "/jobs/reading/do", "/jobs/reading/share/new", "/jobs/reading/share/owner",
			"/import", "/api/v1/jobs/reading/sync"} {
			r := owner.request("POST", path, strings.NewReader("act=tick&e=card/load&name=Eve&token=x"))
			r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
			for name, value := range headers {
				r.Header.Set(name, value)
			}
			assert.Equal(t, 403, owner.send(r).StatusCode, "%s %v", path, headers)
		}
	}
	for _, kind := range []string{"", "text/plain", "application/x-www-form-urlencoded", "application/jsonp",
		"text/plain; application/json"} {
		r := owner.request("POST", "/api/v1/jobs/reading/sync", strings.NewReader(`{"v":1,"d":"phone1","now":1}`))
		r.Header.Set("Content-Type", kind)
		assert.Equal(t, 415, owner.send(r).StatusCode, "%q", kind)
	}
	assert.True(t, before == s.standing(), "something was written")
}
