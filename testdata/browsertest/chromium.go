//go:build !js

package browsertest

import (
	"context"
	"os"
	"slices"
	"strings"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// Chromium drives Chromium over its DevTools protocol.
type Chromium struct {
	ctx   context.Context
	close func()
}

// StartChromium starts Chromium with a profile folder. It looks like a phone with a touch screen.
func StartChromium(profile string, more ...chromedp.ExecAllocatorOption) (*Chromium, error) {
	options := append(Options(),
		chromedp.ExecPath(program(os.Getenv("CHROMIUM"), "chromium", "google-chrome")),
		chromedp.UserDataDir(profile), chromedp.WindowSize(390, 844))
	allocator, cancelAllocator := chromedp.NewExecAllocator(context.Background(), append(options, more...)...)
	browser, cancel := chromedp.NewContext(allocator)
	limited, cancelTime := context.WithTimeout(browser, 4*time.Minute)
	c := &Chromium{ctx: limited, close: func() { cancelTime(); cancel(); cancelAllocator() }}
	err := chromedp.Do(limited, chromedp.Navigate("about:blank")) // the browser lives as long as this context
	if err == nil {
		err = c.Size(390, 844)
	}
	if err != nil {
		c.close()
		return nil, err
	}
	return c, nil
}

// Page returns the driver of a page that a context of chromedp belongs to, such as another tab.
func Page(ctx context.Context) *Chromium { return &Chromium{ctx: ctx, close: func() {}} }

// Context returns the context of the page, for what only this protocol can do.
func (c *Chromium) Context() context.Context { return c.ctx }

func (c *Chromium) do(actions ...chromedp.Action[chromedp.Void]) error {
	ctx, cancel := context.WithTimeout(c.ctx, callLimit)
	defer cancel()
	return chromedp.Do(ctx, actions...)
}

// Open implements Browser.
func (c *Chromium) Open(address string) error { return c.do(chromedp.Navigate(address)) }

// Eval implements Browser.
func (c *Chromium) Eval(expression string) (string, error) {
	ctx, cancel := context.WithTimeout(c.ctx, callLimit)
	defer cancel()
	return chromedp.Run(ctx, chromedp.Evaluate[string](`String(`+expression+`)`))
}

// Tap implements Browser.
func (c *Chromium) Tap(selector string) error {
	x, y, err := aimed(c, selector)
	if err != nil {
		return err
	}
	return c.do(chromedp.MouseClickXY(x, y))
}

// Press implements Browser.
func (c *Chromium) Press(key string) error {
	var held []chromedp.KeyOption
	name, shifted := strings.CutPrefix(key, "Shift+")
	if shifted {
		held = append(held, chromedp.KeyModifiers(chromedp.ModifierShift))
	}
	codes := map[string]string{"Tab": kb.Tab, "Enter": kb.Enter, "Escape": kb.Escape, "ArrowUp": kb.ArrowUp,
		"ArrowRight": kb.ArrowRight}
	if code, is := codes[name]; is {
		name = code
	}
	return c.do(chromedp.KeyEvent(name, held...))
}

// Size implements Browser.
func (c *Chromium) Size(width, height int) error {
	return c.do(chromedp.EmulateViewport(int64(width), int64(height), chromedp.EmulateMobile, chromedp.EmulateTouch))
}

// Picture implements Browser.
func (c *Chromium) Picture() ([]byte, error) {
	return chromedp.Run(c.ctx, chromedp.CaptureScreenshot())
}

// Close implements Browser.
func (c *Chromium) Close() error {
	c.close()
	return nil
}

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
