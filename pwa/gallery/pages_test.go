package gallery_test

import (
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/pwa/gallery"
	"garlandry/pwa/view"
)

// drawn is one page of the gallery as HTML and parsed.
type drawn struct {
	gallery.Page
	html string
	doc  *goquery.Document
}

// pagesOnce draws the gallery once for all tests, because the calculators take a while.
var pagesOnce = sync.OnceValues(gallery.Pages)

func drawAll(t *testing.T) []drawn {
	t.Helper()
	pages, err := pagesOnce()
	require.NoError(t, err)
	require.Greater(t, len(pages), 80)
	all := make([]drawn, len(pages))
	for i, p := range pages {
		var b strings.Builder
		require.NoError(t, p.Document(view.Assets{}).Render(&b), p.Name)
		doc, err := goquery.NewDocumentFromReader(strings.NewReader(b.String()))
		require.NoError(t, err, p.Name)
		all[i] = drawn{p, b.String(), doc}
	}
	return all
}

// named returns a control's name for a screen reader, or "" if it has none.
func named(doc *goquery.Document, s *goquery.Selection) string {
	if label, ok := s.Attr("aria-label"); ok {
		return strings.TrimSpace(label)
	}
	if id, ok := s.Attr("id"); ok && id != "" {
		if label := doc.Find(fmt.Sprintf("label[for=%q]", id)); label.Length() > 0 {
			return strings.TrimSpace(label.Text())
		}
	}
	if label := s.Closest("label"); label.Length() > 0 {
		return strings.TrimSpace(label.Text())
	}
	return ""
}

func TestEveryPageIsSoundMarkup(t *testing.T) {
	for _, p := range drawAll(t) {
		t.Run(p.Name, func(t *testing.T) {
			doc := p.doc
			assert.Equal(t, 1, doc.Find("h1").Length(), "there must be one h1")
			if p.Standalone() {
				assert.Equal(t, 1, doc.Find("main").Length())
				assert.Zero(t, doc.Find("script, form, button, input, a, nav, [id]:not([id^=s]), [style], style").Length(),
					"a client looks, and that is all")
				return
			}
			assert.Equal(t, 1, doc.Find("main#page").Length())
			assert.Equal(t, 1, doc.Find("#top").Length())
			assert.Equal(t, 1, doc.Find("#state[role=status]").Length())
			assert.Equal(t, 1, doc.Find("nav#nav").Length())
			assert.Equal(t, 1, doc.Find("script[type=module][src]").Length(), "the page's script")
			assert.Equal(t, 1, doc.Find("head script[src]:not([type])").Length(), "the theme's script, before the first paint")
			assert.Equal(t, 2, doc.Find("script").Length(), "no other scripts, and none inside the page")
			assert.Equal(t, 0, doc.Find("script:not([src]), style, [style], iframe, object, embed, base").Length(),
				"the security policy would block these")
			seen := map[string]bool{}
			doc.Find("[id]").Each(func(_ int, s *goquery.Selection) {
				id, _ := s.Attr("id")
				assert.False(t, seen[id], "id %s is not unique", id)
				assert.NotEmpty(t, id)
				seen[id] = true
			})
			doc.Find("*").Each(func(_ int, s *goquery.Selection) {
				for _, a := range s.Nodes[0].Attr {
					assert.False(t, strings.HasPrefix(a.Key, "on"), "%s on %s", a.Key, goquery.NodeName(s))
				}
			})
			doc.Find("[aria-describedby]").Each(func(_ int, s *goquery.Selection) {
				for _, id := range strings.Fields(s.AttrOr("aria-describedby", "")) {
					assert.True(t, seen[id], "described by a missing %s", id)
				}
			})
			doc.Find("label[for]").Each(func(_ int, s *goquery.Selection) {
				assert.True(t, seen[s.AttrOr("for", "")], "label for a missing %s", s.AttrOr("for", ""))
			})
		})
	}
}

func TestEveryControlHasAName(t *testing.T) {
	for _, p := range drawAll(t) {
		p.doc.Find("input:not([type=hidden]), select, textarea").Each(func(_ int, s *goquery.Selection) {
			assert.NotEmpty(t, named(p.doc, s), "%s: %s", p.Name, s.AttrOr("name", "?"))
		})
		p.doc.Find("button, a[href], summary").Each(func(_ int, s *goquery.Selection) {
			name := s.AttrOr("aria-label", strings.TrimSpace(s.Text()))
			assert.NotEmpty(t, strings.TrimSpace(name), "%s: %s without words: %s", p.Name, goquery.NodeName(s),
				s.AttrOr("href", ""))
		})
		p.doc.Find("svg").Each(func(_ int, s *goquery.Selection) {
			if role := s.AttrOr("role", ""); role == "img" || role == "group" { // a group holds what can be moved
				assert.NotEmpty(t, s.AttrOr("aria-label", ""), p.Name)
			} else {
				assert.Equal(t, "true", s.AttrOr("aria-hidden", ""), "%s: a picture must be either named or hidden", p.Name)
			}
		})
	}
}

func TestEveryFormNamesCoreOrServer(t *testing.T) {
	posts := 0
	for _, p := range drawAll(t) {
		p.doc.Find("form[method=post]").Each(func(_ int, s *goquery.Selection) {
			posts++
			_, core := s.Attr("data-core")
			_, server := s.Attr("data-server")
			assert.True(t, core != server, "%s: %s", p.Name, s.AttrOr("action", ""))
			assert.True(t, strings.HasPrefix(s.AttrOr("action", ""), "/"), "%s: %s", p.Name, s.AttrOr("action", ""))
			assert.NotEmpty(t, s.AttrOr("id", ""), "%s: a form needs an id: %s", p.Name, s.AttrOr("action", ""))
		})
	}
	assert.Greater(t, posts, 300)
}

func TestHelpersSeeNoContactNoPricesNoSettings(t *testing.T) {
	helped := 0
	for _, p := range drawAll(t) {
		if p.Frame.Role != job.Helper {
			continue
		}
		helped++
		for _, secret := range []string{"Aurelia", "555 0100", "aurelia@", "480 in all", "half beforehand"} {
			assert.NotContains(t, p.html, secret, p.Name)
		}
		p.doc.Find("a[href], form[action]").Each(func(_ int, s *goquery.Selection) {
			to := s.AttrOr("href", s.AttrOr("action", ""))
			for _, closed := range []string{"/brief", "/figures", "/share", "/crew", "/kit", "/colours", "/export", "/new",
				"/change", "/added"} {
				assert.False(t, strings.HasSuffix(to, closed), "%s leads a helper to %s", p.Name, to)
			}
		})
	}
	assert.Greater(t, helped, 15)
}

// TestContactIsForTheOwner shows that the test above could fail: the owner's brief has the contact.
func TestContactIsForTheOwner(t *testing.T) {
	for _, p := range drawAll(t) {
		if p.Name == "brief-half" {
			assert.Contains(t, p.html, "Aurelia")
			return
		}
	}
	t.Fatal("the owner's brief is not in the gallery")
}

func TestMarkupInNamesStaysText(t *testing.T) {
	marked := 0
	for _, p := range drawAll(t) {
		if !strings.HasSuffix(p.Name, "-marked") {
			continue
		}
		marked++
		assert.Equal(t, 0, p.doc.Find("main img, main script, main i, [onerror]").Length(), p.Name)
		assert.Equal(t, 1, p.doc.Find("main").Length(), p.Name)
		assert.NotContains(t, p.html, "<script>alert", p.Name)
		assert.NotContains(t, p.html, `"friends" 🎈</`, "quotes must be escaped: "+p.Name)
		if strings.HasPrefix(p.Name, "overview") {
			assert.Equal(t, `<script>alert('x')</script> & "friends" 🎈`, p.doc.Find("h1").Text(), "shown as typed")
		}
	}
	assert.Greater(t, marked, 15)
}

func TestPagesShowTheMostImportantThingFirst(t *testing.T) {
	want := map[string]struct{ selector, text string }{
		"overview-half":          {"main #clock-answer .verdict", "doors 11:00"},
		"next-half":              {"main h1", "Ines, next for you"},
		"pack-half":              {"main .delta", "12 more"},
		"card-count-half":        {"main .tally .go", "+1"},
		"card-count-half-helper": {"main", "Garland"},
		"counts-half":            {"main .count", "clusters"},
		"overview-empty":         {"main .empty", "A piece is one thing to build"},
		"next-empty":             {"main", ""},
		"join":                   {"label[for=join-name]", "Your name"},
		"jobs-none":              {"main .empty a.go", "Start a job"},
		"phone-trouble":          {"#attention", "Your link had ended"},
	}
	found := []string{}
	for _, p := range drawAll(t) {
		if w, asked := want[p.Name]; asked {
			found = append(found, p.Name)
			assert.Contains(t, strings.ToLower(p.doc.Find(w.selector).Text()), strings.ToLower(w.text), p.Name)
		}
	}
	slices.Sort(found)
	for name := range want {
		if !slices.Contains(found, name) && name != "card-count-half-helper" {
			t.Errorf("%s is not in the gallery", name)
		}
	}
}

func TestIndexListsEveryPage(t *testing.T) {
	pages, err := pagesOnce()
	require.NoError(t, err)
	index, err := gallery.Index("/dev/gallery")
	require.NoError(t, err)
	var b strings.Builder
	require.NoError(t, index.Render(&b))
	names := map[string]bool{}
	for _, p := range pages {
		assert.False(t, names[p.Name], "%s is listed twice", p.Name)
		names[p.Name] = true
		assert.Contains(t, b.String(), `href="/dev/gallery/`+p.Name+`"`)
		require.NotNil(t, p.Body, p.Name)
	}
	_, found, err := gallery.Find("no such page")
	require.NoError(t, err)
	assert.False(t, found)
}
