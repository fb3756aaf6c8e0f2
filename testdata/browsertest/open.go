//go:build !js

// Package browsertest starts the browser for tests of pages.
package browsertest

import (
	"context"
	"slices"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// Options returns the flags for Chromium in tests. They turn off its sandbox, its own traffic, and the page it keeps
// ready behind the address bar, which costs a second of processor time at each start. They also turn off V8's
// optimising compiler: a test runs a core for seconds only, and optimising it takes longer than it saves.
func Options() []chromedp.ExecAllocatorOption {
	return append(slices.Clone(chromedp.DefaultExecAllocatorOptions[:]), chromedp.NoSandbox,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true),
		chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true),
		chromedp.Flag("js-flags", "--liftoff-only"),
		chromedp.Flag("disable-features", "Translate,BlinkGenPropertyTrees,WebUIOmniboxPopup,WebUIOmniboxAimPopup"))
}

// Optimised turns V8's optimising compiler on again, as users have it. Put it after Options.
var Optimised = chromedp.Flag("js-flags", "")

// Open starts a browser that ends with the test or when the time is over. Its page is empty.
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
