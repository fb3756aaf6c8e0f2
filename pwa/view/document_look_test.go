package view_test

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"garlandry/pwa/view"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestTheBrowsersBarsFollowTheLook checks that in every theme the browser's bars have the page's background colour from
// the style sheet. The script that applies the theme must come before the first paint, and after the style sheet that
// it reads.
func TestTheBrowsersBarsFollowTheLook(t *testing.T) {
	css, err := os.ReadFile("../../static/css/app.css")
	require.NoError(t, err)
	surface := func(selector string) string {
		found := regexp.MustCompile(regexp.QuoteMeta(selector) + `\{[^}]*--surface:(#[0-9a-f]+)`).FindSubmatch(css)
		require.NotNil(t, found, selector)
		return string(found[1])
	}
	light, dark, sun := surface(":root"), surface(":root[data-theme=dark]"), surface(":root[data-theme=sun]")
	for theme, want := range map[string][2]string{"": {light, dark}, "light": {light, light}, "dark": {dark, dark},
		"sun": {sun, sun}, "<b>": {light, dark}} {
		var page strings.Builder
		require.NoError(t, view.Document(view.Frame{Theme: theme}, view.Waiting(view.Frame{})).Render(&page))
		doc, err := goquery.NewDocumentFromReader(strings.NewReader(page.String()))
		require.NoError(t, err)
		metas := doc.Find(`meta[name="theme-color"]`)
		require.Equal(t, 2, metas.Length())
		for i, own := range []string{light, dark} {
			assert.Equal(t, want[i], metas.Eq(i).AttrOr("content", ""), theme)
			assert.Equal(t, own, metas.Eq(i).AttrOr("data-own", ""), theme)
		}
		script := doc.Find(`head link[rel="stylesheet"] ~ script[src$="look.js"]`)
		require.Equal(t, 1, script.Length())
		for _, late := range []string{"async", "defer", "type"} {
			_, there := script.Attr(late)
			assert.False(t, there, late)
		}
	}
}
