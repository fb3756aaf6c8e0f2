package page_test

import (
	"net/url"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/form"
	"garlandry/pwa/page"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// crawled is what one visitor found by following every link.
type crawled struct {
	pages   map[string]bool
	actions map[string]bool
	forms   int
}

// crawl follows every link that the visitor can reach from the start. Every link must lead to a page that this visitor
// may see, and every form to an address that accepts posts. Every form must be accepted unchanged, or name what is
// missing.
func crawl(t *testing.T, v *visitor, start string) crawled {
	found := crawled{pages: map[string]bool{}, actions: map[string]bool{}}
	queue := []string{start}
	for len(queue) > 0 {
		address := queue[0]
		queue = queue[1:]
		if found.pages[address] {
			continue
		}
		found.pages[address] = true
		require.Less(t, len(found.pages), 1000, "too many pages")
		path, _ := parts(t, address)
		if page.ServerOnly(path) {
			continue
		}
		v.visit(address)
		if v.reply.File != nil {
			continue
		}
		require.Equal(t, 200, v.reply.Status, "%s", address)
		checkPage(t, v, address)
		v.doc.Find("body a[href]").Each(func(_ int, s *goquery.Selection) {
			href := s.AttrOr("href", "")
			to, _, _ := strings.Cut(href, "#")
			if to == "" {
				return
			}
			target, err := url.Parse(to)
			require.NoError(t, err, href)
			assert.True(t, page.Known(false, target.Path), "%s has a dead link to %s", address, href)
			queue = append(queue, to)
		})
		v.doc.Find("form").Each(func(_ int, f *goquery.Selection) {
			found.forms++
			checkForm(t, v, address, f, found.actions)
		})
	}
	return found
}

func checkForm(t *testing.T, v *visitor, address string, f *goquery.Selection, actions map[string]bool) {
	action, _, _ := strings.Cut(f.AttrOr("action", ""), "#")
	post := strings.EqualFold(f.AttrOr("method", "get"), "post")
	actions[action] = true
	assert.True(t, page.Known(post, action), "%s has a form to %s, which accepts none", address, action)
	_, core := f.Attr("data-core")
	_, server := f.Attr("data-server")
	if post {
		assert.True(t, core != server, "%s: the form to %s must name core or server", address, action)
		assert.NotEmpty(t, f.AttrOr("id", ""), "%s: the form to %s needs an id", address, action)
	}
	if !core || page.ServerOnly(action) {
		return
	}
	reply := pagePost(v, action, standing(f))
	switch reply.Status {
	case 303, 422:
	default:
		assert.Fail(t, "an unchanged form is refused", "%s: %s gives %d", address, action, reply.Status)
	}
}

// checkPage checks rules that hold on every page.
func checkPage(t *testing.T, v *visitor, address string) {
	assert.Equal(t, 1, v.doc.Find("h1").Length(), "%s needs one heading", address)
	ids := map[string]int{}
	v.doc.Find("[id]").Each(func(_ int, s *goquery.Selection) { ids[s.AttrOr("id", "")]++ })
	v.doc.Find("#page [id]").Each(func(_ int, s *goquery.Selection) {
		assert.Equal(t, 1, ids[s.AttrOr("id", "")], "%s: the id %s must be unique", address, s.AttrOr("id", ""))
	})
	v.doc.Find("label[for]").Each(func(_ int, s *goquery.Selection) {
		assert.Equal(t, 1, ids[s.AttrOr("for", "")], "%s: the label for %s needs its input", address, s.AttrOr("for", ""))
	})
	assert.Equal(t, 0, v.doc.Find("[style],[onclick],script:not([src]),style").Length(), "%s: nothing inline", address)
}

func demo(t testing.TB) *world {
	w := newWorld(t)
	w.load("demo", "reading-room.json")
	return w
}

func TestCrawlAsOwner(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora")
	v.post("/jobs/demo/do", form.Values{"act": {"tick"}, "e": {"card/load"}})
	found := crawl(t, v, "/")
	for _, address := range []string{"/new", "/import", "/calc", "/phone", "/jobs/demo/brief", "/jobs/demo/colours",
		"/jobs/demo/crew", "/jobs/demo/kit", "/jobs/demo/added?list=pack", "/jobs/demo/figures",
		"/jobs/demo/pieces", "/jobs/demo/pieces/new", "/jobs/demo/pieces/door", "/jobs/demo/share", "/jobs/demo/history",
		"/jobs/demo/export"} {
		assert.True(t, found.pages[address], "no link leads to %s", address)
	}
	for _, action := range []string{"/jobs/demo/do", "/jobs/demo/copy", "/jobs/demo/away", "/import"} {
		assert.True(t, found.actions[action], "no form posts to %s", action)
	}
	assert.Greater(t, found.forms, 300)
	t.Logf("%d pages, %d forms", len(found.pages), found.forms)
}

func TestCrawlAsLead(t *testing.T) {
	found := crawl(t, demo(t).visitor(job.Lead, "Tomasz"), "/")
	assert.True(t, found.pages["/jobs/demo/pieces/door"])
	assert.True(t, found.pages["/jobs/demo/added?list=site"])
	assert.False(t, found.pages["/jobs/demo/brief"])
}

func TestCrawlAsHelper(t *testing.T) {
	v := demo(t).visitor(job.Helper, "Ines")
	found := crawl(t, v, "/")
	assert.True(t, found.pages["/jobs/demo/cards"])
	for address := range found.pages {
		path, query := parts(t, address)
		reply := page.Get(v.world1(), path, query)
		if reply.Body == nil {
			continue
		}
		v.reply = reply
		v.show()
		html, err := v.doc.Html()
		require.NoError(t, err)
		assert.NotContains(t, html, "The librarian", "%s must not show the client", address)
		assert.NotContains(t, html, "Photos allowed", "%s must not show what was agreed", address)
	}
}

// TestRolesKeepToTheirPages checks that each role opens and posts only what it may.
func TestRolesKeepToTheirPages(t *testing.T) {
	w := demo(t)
	owners := []string{"/new", "/import", "/away", "/jobs/demo/brief", "/jobs/demo/colours", "/jobs/demo/crew",
		"/jobs/demo/kit", "/jobs/demo/figures", "/jobs/demo/export"}
	editors := []string{"/jobs/demo/added", "/jobs/demo/pieces/new", "/jobs/demo/change/card/load"}
	posts := []string{"/jobs/demo/copy", "/jobs/demo/away", "/jobs/demo/back"}
	for _, c := range []struct {
		role    job.Role
		refused []string
	}{{job.Lead, owners}, {job.Helper, append(append([]string{}, owners...), editors...)}, {"", []string{"/", "/calc",
		"/phone", "/jobs/demo", "/jobs/demo/next"}}} {
		v := w.visitor(c.role, "x")
		for _, path := range c.refused {
			assert.Equal(t, 403, page.Get(v.world1(), path, nil).Status, "%q opens %s", c.role, path)
		}
		for _, path := range append(append([]string{}, c.refused...), posts...) {
			reply := page.Post(v.world1(), path, form.Values{"title": {"x"}, "name": {"x"}, "act": {"remove"}, "id": {"coral"}})
			assert.Contains(t, []int{403, 405}, reply.Status, "%q posts to %s", c.role, path)
			assert.Empty(t, reply.Writes)
		}
	}
	helper := w.visitor(job.Helper, "Ines")
	for name, values := range map[string]form.Values{
		"rewrite a card": {"act": {"note"}, "e": {"card/load"}, "text": {"mine"}}, "bring back": {"act": {"restore"},
			"e": {"piece/door"}},
	} {
		reply := page.Post(helper.world1(), "/jobs/demo/do", values)
		assert.GreaterOrEqual(t, reply.Status, 400, name)
		assert.Empty(t, reply.Writes, name)
	}
	assert.GreaterOrEqual(t, page.Post(helper.world1(), "/jobs/demo/pieces/door", form.Values{"act": {"remove"}}).Status,
		400)
	assert.Equal(t, 404, page.Get(helper.world1(), "/jobs/other", nil).Status, "an unshared job looks like none")
	assert.Equal(t, 404, page.Get(helper.world1(), "/jobs/demo/pieces/none", nil).Status)
	assert.Equal(t, 404, page.Get(helper.world1(), "/nowhere", nil).Status)
	assert.Equal(t, 405, page.Post(helper.world1(), "/jobs/demo/cards", nil).Status)
}

func FuzzVisits(f *testing.F) {
	for _, path := range []string{"/", "/new", "/jobs/demo", "/jobs/demo/pieces/door", "/jobs/demo/do",
		"/calc/clusters", "/jobs/demo/figures", "/import", "/jobs/demo/colours", "/jobs//", "//", "/jobs/demo/cards/load",
		"\x00", "/jobs/demo/change/card/load"} {
		f.Add(path, "act", "tick", "e", "card/load", byte(0))
		f.Add(path, "name", "<b>", "length_mm", "-3 m", byte(1))
		f.Add(path, "coral.name", "x", "act", "save", byte(2))
	}
	roles := []job.Role{job.Owner, job.Lead, job.Helper, ""}
	w := demo(f)
	f.Fuzz(func(t *testing.T, path, key, value, key2, value2 string, role byte) {
		v := w.visitor(roles[int(role)%len(roles)], "Ines")
		typed := form.Values{key: {value}, key2: {value2}, "id": {"coral"}}
		for _, reply := range []page.Reply{page.Get(v.world1(), path, typed), page.Post(v.world1(), path, typed)} {
			if reply.Status < 200 || reply.Status >= 500 && reply.Status != 503 {
				t.Fatalf("%q %q=%q %q=%q: status %d", path, key, value, key2, value2, reply.Status)
			}
			if reply.Body == nil && reply.Redirect == "" && reply.File == nil {
				t.Fatalf("%q: an empty answer", path)
			}
			if reply.Status >= 400 && len(reply.Writes) > 0 {
				t.Fatalf("%q: writes beside an error", path)
			}
			for _, write := range reply.Writes {
				for _, c := range write.Changes {
					if err := job.CheckChange(c); err != nil {
						t.Fatalf("%q writes what is refused: %v", path, err)
					}
					if !v.who.Role.May(c.Kind, c.Entity) {
						t.Fatalf("%q writes %s, which %q may not", path, c.Entity, v.who.Role)
					}
				}
			}
		}
	})
}
