//go:build !js

package gallery_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/testdata/browsertest"
)

// tooLow lists links lower than 48 px, alone on a line or at its end, which a thumb could miss.
const tooLow = `JSON.stringify([...document.querySelectorAll(
  'a.stateline, .working a, a[href="/import"], .below a, .plainlink')]
  .map(e => [e, e.getBoundingClientRect()]).filter(([, r]) => r.height < 47.5).map(([e, r]) => e.textContent.trim() +
	' ' + r.height))`

// brokenWords lists words in row names that are broken across lines.
const brokenWords = `JSON.stringify([...document.querySelectorAll('.tickrow .rowtitle, .colourname')].flatMap(e => {
  const texts = document.createTreeWalker(e, NodeFilter.SHOW_TEXT), broken = [];
  for (let n; (n = texts.nextNode());) for (const word of n.data.matchAll(/\S+/g)) {
    const range = document.createRange();
    range.setStart(n, word.index);
    range.setEnd(n, word.index + word[0].length);
    if (range.getClientRects().length > 1) broken.push(word[0]);
  }
  return broken;
}))`

// TestSizesOnANarrowPhone checks that links are large enough for a thumb, and that names in the pack list stay readable
// on the narrowest phones.
func TestSizesOnANarrowPhone(t *testing.T) {
	found := false
	for _, name := range []string{"chromium", "google-chrome", "chrome", "headless-shell"} {
		_, err := exec.LookPath(name)
		found = found || err == nil
	}
	if !found {
		t.Skip("no browser here: install chromium (apt-get install chromium), then run go test ./pwa/gallery -run Sizes")
	}
	styles, err := filepath.Abs("../../static/css/app.css")
	require.NoError(t, err)
	pages, err := pagesOnce()
	require.NoError(t, err)
	browser := browsertest.Open(t, 9*time.Minute)
	require.NoError(t, chromedp.Do(browser, chromedp.EmulateViewport(320, 2000)))
	seen := 0
	for _, p := range pages {
		if !matches(p.Name, "pack-half,pack-wild,counts-half,new,overview-half") {
			continue
		}
		seen++
		var html strings.Builder
		require.NoError(t, p.Document(sheets("file://"+styles)).Render(&html))
		file := filepath.Join(t.TempDir(), "page.html")
		require.NoError(t, os.WriteFile(file, []byte(strings.ReplaceAll(html.String(), "<details", "<details open")), 0o600))
		require.NoError(t, chromedp.Do(browser, chromedp.Navigate("file://"+file)))
		assert.Empty(t, ask(t, browser, tooLow), p.Name)
		if !strings.HasSuffix(p.Name, "wild") { // words of a hundred letters have to break
			assert.Empty(t, ask(t, browser, brokenWords), p.Name)
		}
		assert.Equal(t, []string{"no"},
			ask(t, browser, `JSON.stringify([document.documentElement.scrollWidth > 320 ? 'wider than the screen' : 'no'])`),
			p.Name)
	}
	require.GreaterOrEqual(t, seen, 4)
}
