//go:build !js

// Package browsertest starts browsers for tests of pages: Chromium for all of them, and Firefox and WebKit behind the
// same small interface for those that must hold in every engine.
package browsertest

import (
	"context"
	"testing"
	"time"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// Open starts a Chromium that ends with the test or when the time is over. Its page is empty.
func Open(t *testing.T, limit time.Duration) context.Context {
	t.Helper()
	allocator, cancel := chromedp.NewExecAllocator(context.Background(), Options()...)
	t.Cleanup(cancel)
	browser, stop := chromedp.NewContext(allocator)
	t.Cleanup(stop)
	require.NoError(t, chromedp.Do(browser, chromedp.Navigate("about:blank")))
	limited, done := context.WithTimeout(browser, limit)
	t.Cleanup(done)
	return limited
}

// Letters sets the size of letters that the person chose in the browser's settings, in percent of the usual 16 px.
func Letters(browser context.Context, percent int64) error {
	sizes := page.FontSizes{Standard: 16 * percent / 100, Fixed: 13 * percent / 100}
	_, err := chromedp.Call(browser, page.SetFontSizes, page.SetFontSizesParams{FontSizes: &sizes})
	return err
}
