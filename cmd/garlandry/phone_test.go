package main

import (
	"context"
	"time"

	"garlandry/testdata/browsertest"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// promised awaits a promise and returns its value as text.
func (p *phone) promised(expression string) string {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, 60*time.Second)
	defer cancel()
	value, err := chromedp.Run(ctx,
		chromedp.Evaluate[string](`Promise.resolve(`+expression+`).then(String)`, chromedp.EvalAwaitPromise))
	p.check(err)
	return value
}

// tab opens another tab of the same profile, at a phone's size.
func (p *phone) tab() *phone {
	p.t.Helper()
	ctx, cancel := chromedp.NewContext(p.ctx)
	p.t.Cleanup(cancel)
	other := &phone{t: p.t, browser: browsertest.Page(ctx), ctx: ctx}
	require.NoError(p.t, chromedp.Do(ctx, chromedp.Navigate("about:blank")))
	other.do(chromedp.EmulateViewport(390, 844, chromedp.EmulateMobile, chromedp.EmulateTouch))
	return other
}

// close closes the tab.
func (p *phone) close() {
	p.t.Helper()
	require.NoError(p.t, chromedp.Cancel(p.ctx))
}

// streams counts the event streams that the tab opens from now on.
func (p *phone) streams() func() int {
	p.t.Helper()
	opened := make(chan struct{}, 1000)
	require.NoError(p.t, chromedp.Listen(p.ctx, func(event any) {
		if sent, is := event.(*network.EventRequestWillBeSent); is && sent.Type == network.ResourceTypeEventSource {
			opened <- struct{}{}
		}
	}))
	_, err := chromedp.Call(p.ctx, network.Enable, network.EnableParams{})
	p.check(err)
	return func() int { return len(opened) }
}

// prefers sets the system's colour scheme: "light" or "dark".
func (p *phone) prefers(scheme string) {
	p.t.Helper()
	_, err := chromedp.Call(p.ctx, emulation.SetEmulatedMedia,
		emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
	p.check(err)
}

// slowed makes the page's main thread slower by a factor.
func (p *phone) slowed(rate float64) {
	p.t.Helper()
	p.do(func(ctx context.Context, t *chromedp.Target) (chromedp.Void, error) {
		_, err := cdp.Call(ctx, t, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: rate})
		return chromedp.Void{}, err
	})
}
