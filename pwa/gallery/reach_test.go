//go:build !js

package gallery_test

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/pwa/gallery"
	"garlandry/testdata/browsertest"
)

// screens are the sizes on which every page must be usable: width and height in pixels, letters in percent.
var screens = []struct {
	name                   string
	width, height, letters int64
}{{"a phone", 390, 844, 100}, {"a narrow phone", 320, 568, 100}, {"text at 200 %", 390, 844, 200}}

// stickyBars lists bars that stay in place and are higher than 88 px, without the toast.
const stickyBars = `JSON.stringify([...document.querySelectorAll('#top, .dock, .dock > *, #page > *')]
  .filter(e => e.id !== 'flash' && ['sticky', 'fixed'].includes(getComputedStyle(e).position))
  .map(e => e.getBoundingClientRect()).filter(r => r.width > innerWidth / 2 && r.height > 88)
  .map(r => 'a bar of ' + r.height + ' px'))`

// spoilt lists what large text spoils: a page that scrolls sideways, and words broken into single letters.
const spoilt = `(() => {
  const wrong = [];
  const wide = document.documentElement.scrollWidth;
  if (wide > innerWidth) wrong.push('scrolls sideways to ' + wide);
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let n; (n = texts.nextNode());) {
    const e = n.parentElement;
    if (!e.checkVisibility() || e.closest('.vh, svg, select, textarea, .formula')) continue;
    for (const word of n.data.matchAll(/\p{L}{4,}/gu)) {
      const range = document.createRange();
      range.setStart(n, word.index);
      range.setEnd(n, word.index + word[0].length);
      const lines = new Set([...range.getClientRects()].map(r => Math.round(r.top))).size;
      if (lines > 1 && word[0].length / lines < 4) wrong.push('“' + word[0] + '” stands in ' + lines + ' lines');
    }
  }
  return JSON.stringify(wrong.slice(0, 5));
})()`

// covered focuses every control in turn, as the Tab key does, and lists those that a bar hides.
const covered = `(() => {
  const hidden = [];
  scrollTo(0, 0);
  document.activeElement.blur(); // what has the focus already does not scroll
  for (const e of document.querySelectorAll('#page :is(a[href], button, input, select, textarea, summary)')) {
    if (!e.checkVisibility() || e.closest('.vh, .besidelist') || e.type === 'hidden' || e.disabled) continue;
    e.focus();
    if (document.activeElement !== e) continue;
    const r = e.getBoundingClientRect();
    const bars = [...document.querySelectorAll('.dock')]
      .filter(b => getComputedStyle(b).position === 'fixed').map(b => b.getBoundingClientRect());
    const low = Math.min(innerHeight, ...bars.map(b => b.top));
    if (r.height <= low && (r.bottom > low + 1 || r.top < -1)) {
      hidden.push(e.textContent.trim().slice(0, 40) + ' ' + e.nodeName + ' ' + Math.round(r.top) + '-' +
        Math.round(r.bottom) + ' of ' + Math.round(low));
    }
  }
  return JSON.stringify(hidden.slice(0, 5));
})()`

// low lists controls lower or narrower than 44 px. Links within a sentence do not count, nor boxes in a large label.
const low = `JSON.stringify([...document.querySelectorAll(
  'button, summary, a[href], select, textarea, input:not([type=hidden])')]
  .filter(e => e.checkVisibility() && !e.closest('.vh, .segments, .check, .skip, svg') &&
    getComputedStyle(e).display !== 'inline' && !(e.type === 'checkbox' && e.closest('label')))
  .map(e => [e, e.getBoundingClientRect()]).filter(([e, r]) => r.height < 43.5 || r.width < 43.5)
  .map(([e, r]) => e.nodeName + ' ' + e.className + ' ' + e.textContent.trim().slice(0, 30) + ' ' +
    r.width.toFixed(0) + 'x' + r.height.toFixed(0)).slice(0, 5))`

// mostTall is how many times taller a page may be with large text than with ordinary text.
const mostTall = 5

// oddWords reports whether the sample behind a page has words of a hundred letters, which have to break.
func oddWords(page string) bool {
	return strings.HasSuffix(page, "wild") || strings.HasSuffix(page, "long") || strings.HasSuffix(page, "marked")
}

// withBrowser skips a test where there is no browser.
func withBrowser(t *testing.T) context.Context {
	t.Helper()
	for _, name := range []string{"chromium", "google-chrome", "chrome", "headless-shell"} {
		if _, err := exec.LookPath(name); err == nil {
			return browsertest.Open(t, 9*time.Minute)
		}
	}
	t.Skip("no browser here: install chromium (apt-get install chromium), then run go test ./pwa/gallery")
	return nil
}

// show opens a page of the gallery in the browser.
func show(t *testing.T, browser context.Context, p gallery.Page) {
	t.Helper()
	styles, err := filepath.Abs("../../static/css/app.css")
	require.NoError(t, err)
	var html strings.Builder
	require.NoError(t, p.Document(sheets("file://"+styles)).Render(&html))
	file := filepath.Join(t.TempDir(), "page.html")
	require.NoError(t, os.WriteFile(file, []byte(html.String()), 0o600))
	require.NoError(t, chromedp.Do(browser, chromedp.Navigate("file://"+file)))
}

// TestEveryPageOnSmallScreens draws every page of the gallery on a phone, on a narrow phone and with text at 200 %.
// Bars take at most 88 px, focus is never under them, targets are large, words stay whole and nothing scrolls sideways.
func TestEveryPageOnSmallScreens(t *testing.T) {
	if testing.Short() {
		t.Skip("takes minutes; run: go test ./pwa/gallery")
	}
	browser := withBrowser(t)
	pages, err := pagesOnce()
	require.NoError(t, err)
	for _, p := range pages {
		if only := os.Getenv("GARLANDRY_SHOTS_ONLY"); only != "" && !matches(p.Name, only) {
			continue
		}
		show(t, browser, p)
		tall := int64(0)
		for _, s := range screens {
			require.NoError(t, chromedp.Do(browser, chromedp.EmulateViewport(s.width, s.height)))
			require.NoError(t, browsertest.Letters(browser, s.letters))
			height := evaluate[int64](t, browser, `document.documentElement.scrollHeight`)
			where := fmt.Sprintf("%s on %s", p.Name, s.name)
			if tall == 0 {
				tall = height
			}
			assert.LessOrEqual(t, height, mostTall*tall, "%s: px tall", where)
			assert.Empty(t, ask(t, browser, stickyBars), where)
			assert.Empty(t, ask(t, browser, covered), "%s: in focus and covered", where)
			assert.Empty(t, ask(t, browser, low), "%s: targets under 44 px", where)
			if !oddWords(p.Name) {
				assert.Empty(t, ask(t, browser, spoilt), where)
			}
		}
	}
}

// quiet lists what is wrong with the state line on a phone: a dot while all is well, words when something waits or
// fails.
const quiet = `JSON.stringify([...document.querySelectorAll('#state > *')].flatMap(line => {
  const size = e => { const r = e.getBoundingClientRect(); return Math.min(r.width, r.height); };
  const clipped = e => getComputedStyle(e).clipPath === 'inset(50%)'; // for screen readers alone
  const dot = line.matches('.ok'), words = [...line.children].map(e => clipped(e) ? 0 : size(e));
  seen[dot ? 'dot' : 'words'] = true;
  if (dot) return words.every(w => w <= 1) && size(line) >= 8 ? [] : ['words where all is well: ' + words];
  return words.some(w => w >= 12) ? [] : ['no words: ' + line.textContent];
}))`

// TestTheStateIsADotUntilSomethingWaits looks at the state line of every page of the gallery.
func TestTheStateIsADotUntilSomethingWaits(t *testing.T) {
	browser := withBrowser(t)
	pages, err := pagesOnce()
	require.NoError(t, err)
	require.NoError(t, chromedp.Do(browser, chromedp.EmulateViewport(390, 844)))
	kinds := map[string]bool{}
	for _, p := range pages {
		if !matches(p.Name, "overview,next,phone,state") {
			continue
		}
		show(t, browser, p)
		evaluate[bool](t, browser, `window.seen = {}, true`)
		assert.Empty(t, ask(t, browser, quiet), p.Name)
		for _, kind := range []string{"dot", "words"} {
			kinds[kind] = kinds[kind] || evaluate[bool](t, browser, `window.seen.`+kind+` === true`)
		}
	}
	assert.Equal(t, map[string]bool{"dot": true, "words": true}, kinds, "both must be seen")
}

// onPaper lists what no paper should show: buttons but tick boxes, input boxes, options that are not taken, examples
// that read like values, bars and toasts. What an editor's fields hold is printed like text.
const onPaper = `JSON.stringify([...document.querySelectorAll(
  'button:not(.box), .button, input, select, textarea, #top, .dock, #flash, #nav, .tally')]
  .filter(e => e.checkVisibility() && e.type !== 'hidden')
  .filter(e => {
    if (!e.matches('.edit :is(input, select, textarea)')) return true;
    if (/checkbox|radio/.test(e.type)) return !e.checked && e.getBoundingClientRect().height > 0;
    const style = getComputedStyle(e), example = getComputedStyle(e, '::placeholder').color;
    return style.borderTopWidth !== '0px' || (!e.value && e.placeholder && example !== 'rgba(0, 0, 0, 0)');
  })
  .map(e => e.nodeName + ' ' + e.className + ' ' + (e.name || e.textContent.trim().slice(0, 30))).slice(0, 5))`

// TestPaperHasNoButtons prints the pages that people print. Tick boxes stay; the lists have something on them.
func TestPaperHasNoButtons(t *testing.T) {
	browser := withBrowser(t)
	pages, err := pagesOnce()
	require.NoError(t, err)
	_, err = chromedp.Call(browser, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
	require.NoError(t, err)
	seen := 0
	for _, p := range pages {
		if !matches(p.Name, "pack-half,cards-half,card-,counts-half,shop-half,clock-half,sheets-half,overview-half,"+
			"brief-half,piece-") {
			continue
		}
		seen++
		show(t, browser, p)
		assert.Empty(t, ask(t, browser, onPaper), p.Name)
		words := evaluate[int64](t, browser, `document.getElementById('page').innerText.length`)
		assert.Greater(t, words, int64(60), "%s has words on it", p.Name)
	}
	require.GreaterOrEqual(t, seen, 8)
}
