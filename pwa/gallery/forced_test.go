//go:build !js

package gallery_test

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/testdata/browsertest"
)

// ink is how a balloon of a picture is drawn: with which outline, on what ground.
type ink struct {
	State, Fill, Dash string
	Stroke, Ground    []float64 // red, green, blue of 255
	Opacity           float64   // of the outline
}

// inks reads one balloon of each state from the page's pictures.
const inks = `(() => {
	const seen = {}, rgb = (text) => text.match(/[\d.]+/g).slice(0, 3).map(Number);
	for (const circle of document.querySelectorAll('svg.front circle[fill], svg.front .yet circle')) {
		const state = circle.closest('.yet') ? 'yet' : circle.closest('.made') ? 'made' : 'built';
		const { stroke, strokeOpacity, strokeDasharray, fill } = getComputedStyle(circle);
		seen[state] ??= { State: state, Fill: fill, Dash: strokeDasharray, Stroke: rgb(stroke),
			Ground: rgb(getComputedStyle(document.body).backgroundColor),
			Opacity: strokeOpacity * getComputedStyle(circle.parentElement).opacity };
	}
	return Object.values(seen);
})()`

// contrast is the ratio of WCAG 2.2 between the outline and the ground.
func (i ink) contrast() float64 {
	luminance := func(opacity float64) (sum float64) {
		for k, weight := range []float64{0.2126, 0.7152, 0.0722} {
			c := (i.Stroke[k]*opacity + i.Ground[k]*(1-opacity)) / 255
			if c <= 0.04045 {
				sum += weight * c / 12.92
			} else {
				sum += weight * math.Pow((c+0.055)/1.055, 2.4)
			}
		}
		return sum
	}
	a, b := luminance(i.Opacity)+0.05, luminance(0)+0.05
	return max(a, b) / min(a, b)
}

// Progress is told apart by outlines alone: what is to do is empty, what is made has a broken outline, what is up a
// whole one. That holds in greyscale, and in forced colours, where each outline stands out from the ground.
func TestProgressShowsWithoutColour(t *testing.T) {
	styles, err := filepath.Abs("../../static/css/app.css")
	require.NoError(t, err)
	pages, err := pagesOnce()
	require.NoError(t, err)
	browser := browsertest.Open(t, 2*time.Minute)
	for _, mode := range []struct{ scheme, forced string }{{"light", "none"}, {"dark", "none"}, {"light", "active"},
		{"dark", "active"}} {
		_, err := chromedp.Call(browser, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
			Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: mode.scheme},
				{Name: "forced-colors", Value: mode.forced}}})
		require.NoError(t, err)
		states := map[string]int{}
		for _, p := range pages {
			if !strings.HasPrefix(p.Name, "overview") && !strings.HasPrefix(p.Name, "card-") {
				continue
			}
			var html strings.Builder
			require.NoError(t, p.Document(sheets("file://"+styles)).Render(&html))
			file := filepath.Join(t.TempDir(), "page.html")
			require.NoError(t, os.WriteFile(file, []byte(html.String()), 0o600))
			require.NoError(t, chromedp.Do(browser, chromedp.Navigate("file://"+file)))
			all, err := chromedp.Run(browser, chromedp.Evaluate[[]ink](inks))
			require.NoError(t, err)
			for _, i := range all {
				states[i.State]++
				assert.Equal(t, i.State != "yet", strings.HasPrefix(i.Fill, "url("), "%s: %+v", p.Name, i)
				assert.Equal(t, i.State != "made", i.Dash == "none", "%s: %+v", p.Name, i)
				if mode.forced == "active" {
					assert.GreaterOrEqual(t, i.contrast(), 3.0, "%s: %+v", p.Name, i)
				}
			}
		}
		assert.Len(t, states, 3, "%v %v", mode, states)
	}
}
