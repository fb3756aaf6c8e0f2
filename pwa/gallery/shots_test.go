//go:build !js

package gallery_test

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"garlandry/pwa/gallery"
	"garlandry/pwa/view"
	"garlandry/testdata/browsertest"
)

// TestShots writes a screenshot of every page of the gallery into the folder that GARLANDRY_SHOTS names:
// GARLANDRY_SHOTS=/tmp/shots go test ./pwa/gallery -run Shots. GARLANDRY_SHOTS_ONLY picks pages by a part of their
// name. GARLANDRY_SHOTS_AS lists formats: phone, laptop, small, zoom (a phone at 200 %), large (text at 200 %), paper,
// narrow and wide (for installing), with -dark or -sun.
func TestShots(t *testing.T) {
	into := os.Getenv("GARLANDRY_SHOTS")
	if into == "" {
		t.Skip("draws pictures only when asked: GARLANDRY_SHOTS=/tmp/shots go test ./pwa/gallery -run Shots")
	}
	require.NoError(t, os.MkdirAll(into, 0o755))
	styles, err := filepath.Abs("../../static/css/app.css")
	require.NoError(t, err)
	pages, err := pagesOnce()
	require.NoError(t, err)
	browser := browsertest.Open(t, 9*time.Minute)
	for _, p := range pages {
		if only := os.Getenv("GARLANDRY_SHOTS_ONLY"); only != "" && !matches(p.Name, only) {
			continue
		}
		for _, as := range strings.Split(orElse(os.Getenv("GARLANDRY_SHOTS_AS"), "phone"), ",") {
			shoot(t, browser, p, as, into, "file://"+styles)
		}
	}
}

// sheets returns the addresses of all style sheets, from that of app.css.
func sheets(styles string) view.Assets {
	beside := func(name string) string { return strings.Replace(styles, "app.css", name, 1) }
	return view.Assets{CSS: styles, Picture: beside("picture.css"), Narrow: beside("narrow.css"),
		Wide: beside("wide.css"), Print: beside("print.css")}
}

func matches(name, only string) bool {
	for _, part := range strings.Split(only, ",") {
		if strings.HasPrefix(name, part) {
			return true
		}
	}
	return false
}

func orElse(text, instead string) string {
	if text == "" {
		return instead
	}
	return text
}

func shoot(t *testing.T, browser context.Context, p gallery.Page, as, into, styles string) {
	size, theme, _ := strings.Cut(as, "-")
	p.Frame.Theme = theme
	var html strings.Builder
	require.NoError(t, p.Document(sheets(styles)).Render(&html))
	file := filepath.Join(into, p.Name+"-"+as+".html")
	require.NoError(t, os.WriteFile(file, []byte(html.String()), 0o644))
	letters := map[bool]int64{true: 200, false: 100}[size == "large"]
	require.NoError(t, browsertest.Letters(browser, letters))
	width, height := sizes[size][0], sizes[size][1]
	media := map[bool]string{true: "print", false: ""}[size == "paper"]
	_, err := chromedp.Call(browser, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: media})
	require.NoError(t, err)
	require.NoError(
		t,
		chromedp.Do(browser, chromedp.EmulateViewport(width, height, chromedp.EmulateScale(scales[size])),
			chromedp.Navigate("file://"+file)),
		p.Name,
	)
	broad, err := chromedp.Run(browser, chromedp.Evaluate[int64]("document.documentElement.scrollWidth"))
	require.NoError(t, err)
	if broad > width {
		t.Errorf("%s is %d px wide on a screen of %d", p.Name, broad, width)
	}
	if os.Getenv("GARLANDRY_SHOTS_FULL") != "" {
		tall, err := chromedp.Run(browser, chromedp.Evaluate[int64]("Math.min(document.documentElement.scrollHeight, 2400)"))
		require.NoError(t, err)
		require.NoError(t, chromedp.Do(browser, chromedp.EmulateViewport(width, max(tall, height))))
	}
	picture, err := chromedp.Run(browser, chromedp.CaptureScreenshot())
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(into, p.Name+"-"+as+".png"), picture, 0o644))
}

// scales holds device pixels per CSS pixel. narrow and wide are the install screenshots.
var scales = map[string]float64{"phone": 1, "laptop": 1, "small": 1, "zoom": 1, "large": 1, "paper": 1,
	"narrow": 2, "wide": 1}

// sizes holds the screens in CSS pixels.
var sizes = map[string][2]int64{"phone": {390, 844}, "large": {390, 844}, "small": {320, 568}, "narrow": {390, 844},
	"wide": {1280, 800}, "zoom": {195, 422}, "paper": {688, 1010}, "laptop": {1280, 800}}
