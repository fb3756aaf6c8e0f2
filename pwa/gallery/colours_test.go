//go:build !js

package gallery_test

import (
	"bytes"
	"image/png"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/look"
	"garlandry/calc/colour"
	"garlandry/pwa/view"
	"garlandry/testdata"
	"garlandry/testdata/browsertest"
)

// TestColoursOnTheScreen draws the demo's first piece in a browser and reads the screen at balloons that nothing
// covers. Their colour is that of the palette, less than 12 away by CIEDE2000, and nearer to it than to any other.
func TestColoursOnTheScreen(t *testing.T) {
	changes, err := job.DecodeFile(testdata.DemoJob)
	require.NoError(t, err)
	p := plan.Design(job.Preview(changes))
	l := p.Look(&p.Pieces[0], 0)
	file := filepath.Join(t.TempDir(), "picture.svg")
	var svg bytes.Buffer
	const wide = 1000
	require.NoError(t, view.Front{Look: l, Label: "Arch"}.File(wide).Render(&svg))
	require.NoError(t, os.WriteFile(file, svg.Bytes(), 0o600))
	browser := browsertest.Open(t, time.Minute)
	require.NoError(t, chromedp.Do(browser, chromedp.EmulateViewport(wide, wide), chromedp.Navigate("file://"+file)))
	at, err := chromedp.Run(browser, chromedp.Evaluate[[][2]float64](`[...document.querySelectorAll('circle[data-size]')]
		.map(c => { const r = c.getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2]; })`))
	require.NoError(t, err)
	require.Len(t, at, len(l.Balloons))
	shot, err := chromedp.Run(browser, chromedp.CaptureScreenshot())
	require.NoError(t, err)
	screen, err := png.Decode(bytes.NewReader(shot))
	require.NoError(t, err)
	seen := map[string]int{}
	for i, b := range l.Balloons {
		c := l.Colours[b.Colour]
		if hidden(l, i) || c.Finish != "standard" {
			continue
		}
		r, g, bl, _ := screen.At(int(at[i][0]), int(at[i][1])).RGBA()
		pixel := colour.RGB{R: uint8(r >> 8), G: uint8(g >> 8), B: uint8(bl >> 8)}
		own := away(pixel, c)
		assert.Less(t, own, 12.0, "%s is drawn as %s", c.Value, pixel)
		for _, other := range l.Colours {
			if other.ID != c.ID && other.Finish == "standard" {
				assert.Greater(t, away(pixel, other), own, "%s is drawn as %s, nearer to %s", c.Value, pixel, other.Value)
			}
		}
		seen[c.ID]++
	}
	for _, c := range l.Colours {
		if c.Finish == "standard" {
			assert.Positive(t, seen[c.ID], "%s was nowhere to be seen", c.Name)
		}
	}
	assert.GreaterOrEqual(t, len(seen), 2)
}

// hidden reports whether a later balloon lies over the middle of one, or near it.
func hidden(l *look.Look, i int) bool {
	b := l.Balloons[i]
	for _, later := range l.Balloons[i+1:] {
		x, y := later.XMM-b.XMM, later.YMM-b.YMM
		reach := later.RadiusMM + 10
		if x*x+y*y < reach*reach {
			return true
		}
	}
	return false
}

func away(pixel colour.RGB, c job.Colour) float64 {
	want, _ := colour.Parse(c.Value)
	return colour.Difference(pixel.Lab(), want.Lab())
}
