//go:build !js

package gallery_test

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/testdata/browsertest"
)

// axeRun runs axe-core with the options in place of OPTIONS and returns one line for each violation.
const axeRun = `(async () => {
  const found = await axe.run(document, {OPTIONS, resultTypes: ['violations']});
  return JSON.stringify(found.violations.map(v => v.id + ': ' + v.help + ' at ' + v.nodes.slice(0,
	3).map(n => n.target.join(' ') + ' ' + (n.any[0] ? n.any[0].message : '')).join(' | ')));
})()`

// axeRules holds the rules for each theme. Light gets WCAG 2.2 A and AA with the sizes of targets, and axe's best
// practice; the other themes differ only in colours.
var axeRules = map[string]string{
	"light": `runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
		rules: {'target-size': {enabled: true}}`,
	"dark": `runOnly: ['color-contrast']`, "sun": `runOnly: ['color-contrast']`}

// smallTargets lists controls lower or narrower than 48 px, which a thumb could miss. Links within a sentence and
// controls inside a large label do not count, nor the dock while it has words: those have 44 px, see
// TestEveryPageOnSmallScreens.
const smallTargets = `JSON.stringify([...document.querySelectorAll('button, summary, input:not([type=hidden]), ' +
  'select, textarea, nav a, a.row, a.button, a.rowtext, .tiles a, .filters a, .plainlink, .below a')]
  .filter(e => e.checkVisibility() && !e.closest('.segments, .check, .dock:has(.wait, .care)'))
  .map(e => [e, e.getBoundingClientRect()]).filter(([e, r]) => r.height < 47.5 || (r.width < 47.5 &&
	!e.matches('summary')))
  .map(([e, r]) => e.tagName + ' ' + (e.className || e.name || '') + ' ' + e.textContent.trim().slice(0, 30) + ' ' +
	r.width.toFixed(0) + 'x' + r.height.toFixed(0)))`

// TestAxe runs axe-core over every page of the gallery on a phone, light, dark and for sunlight, and measures targets.
// GARLANDRY_AXE names the file axe.min.js of the npm package axe-core.
func TestAxe(t *testing.T) {
	script := os.Getenv("GARLANDRY_AXE")
	if script == "" {
		t.Skip("needs axe-core: npm install axe-core, then GARLANDRY_AXE=.../axe.min.js go test ./pwa/gallery -run Axe")
	}
	axe, err := os.ReadFile(script)
	require.NoError(t, err)
	styles, err := filepath.Abs("../../static/css/app.css")
	require.NoError(t, err)
	pages, err := pagesOnce()
	require.NoError(t, err)
	browser := browsertest.Open(t, 20*time.Minute)
	for _, p := range pages {
		if only := os.Getenv("GARLANDRY_SHOTS_ONLY"); only != "" && !matches(p.Name, only) {
			continue
		}
		p.Frame.Theme = "light"
		var html strings.Builder
		require.NoError(t, p.Document(sheets("file://"+styles)).Render(&html))
		file := filepath.Join(t.TempDir(), "page.html")
		require.NoError(t, os.WriteFile(file, []byte(html.String()), 0o600))
		require.NoError(t, chromedp.Do(browser, chromedp.Navigate("file://"+file)))
		_, err := chromedp.Run(browser, chromedp.Evaluate[bool](string(axe)+"; true"))
		require.NoError(t, err)
		require.NoError(t, chromedp.Do(browser, chromedp.EmulateViewport(390, 844))) // with the dock over the page
		assert.Empty(t, ask(t, browser, smallTargets), "%s: targets under 48 px", p.Name)
		for _, theme := range []string{"light", "dark", "sun"} {
			set := `document.documentElement.dataset.theme = '` + theme + `'`
			require.Equal(t, theme, evaluate[string](t, browser, set)) // the theme is just this attribute
			assert.Empty(t, ask(t, browser, strings.Replace(axeRun, "OPTIONS", axeRules[theme], 1)), "%s %s", p.Name, theme)
		}
	}
}

func evaluate[T any](t *testing.T, browser context.Context, expression string) T {
	t.Helper()
	value, err := chromedp.Run(browser, chromedp.Evaluate[T](expression))
	require.NoError(t, err)
	return value
}

// ask evaluates an expression that returns a JSON list of texts.
func ask(t *testing.T, browser context.Context, expression string) []string {
	t.Helper()
	text, err := chromedp.Run(browser, chromedp.Evaluate[string](expression, chromedp.EvalAwaitPromise))
	require.NoError(t, err)
	var list []string
	require.NoError(t, json.Unmarshal([]byte(text), &list))
	return list
}
