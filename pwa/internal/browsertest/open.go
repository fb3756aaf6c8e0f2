//go:build !js

// Package browsertest opens the browser that tests of pages look with.
package browsertest

import (
	"context"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// Open starts a browser that ends with the test, or after the time. The page it shows is empty.
func Open(t *testing.T, limit time.Duration) context.Context {
	t.Helper()
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.NoSandbox,
		chromedp.Flag("disable-background-networking", true))
	allocator, cancel := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(cancel)
	browser, stop := chromedp.NewContext(allocator)
	t.Cleanup(stop)
	require.NoError(t, chromedp.Do(browser, chromedp.Navigate("about:blank")))
	limited, done := context.WithTimeout(browser, limit)
	t.Cleanup(done)
	return limited
}
