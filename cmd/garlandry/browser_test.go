package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"testing"
	"time"

	"garlandry/app/store"
	"garlandry/pwa/address"
	"garlandry/testdata/browsertest"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// inBrowser marks a browser test. It runs in parallel because it mostly waits.
func inBrowser(t *testing.T) {
	t.Helper()
	chromium(t)
	t.Parallel()
}

// chromium returns the browser's path. Without a browser it skips the test and says how to get one.
func chromium(t *testing.T) string {
	t.Helper()
	if testing.Short() {
		t.Skip("browser tests are left out of -short; run: go test ./cmd/garlandry")
	}
	for _, name := range []string{os.Getenv("CHROMIUM"), "chromium", "google-chrome"} {
		if name == "" {
			continue
		}
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	t.Skip(
		"no browser here: apt-get install chromium, or name one in CHROMIUM; then go test ./cmd/garlandry",
	)
	return ""
}

// running is a server under test.
type running struct {
	t       *testing.T
	dir     string
	address string
	link    string // an owner link, printed or made
	printed string
	stop    func()
}

// startServer runs the real serve command on the given address, or on a free port.
func startServer(t *testing.T, dir, addr string, demo bool) *running {
	t.Helper()
	if addr == "" {
		addr = "127.0.0.1:0"
	}
	ctx, cancel := context.WithCancel(context.Background())
	command := &serveCommand{Addr: addr, Data: dir, Demo: demo}
	var out bytes.Buffer
	ready, ended := make(chan string, 1), make(chan error, 1)
	go func() {
		ended <- command.serve(ctx, stdio{strings.NewReader(""), &out, io.Discard}, func(a string) { ready <- a })
	}()
	r := &running{t: t, dir: dir}
	select {
	case r.address = <-ready:
	case err := <-ended:
		cancel()
		require.NoError(t, err)
		t.Fatal("the server ended at once")
	}
	r.link = regexp.MustCompile(`http://\S+/j\?as=owner#\S+`).FindString(out.String())
	if r.link == "" { // no link is printed when the owner has a device
		token, err := store.Invite(dir, store.Options{})
		require.NoError(t, err)
		r.link = r.address + address.OwnerInvite(token)
	}
	r.printed = out.String()
	stopped := false
	r.stop = func() {
		if !stopped {
			stopped = true
			cancel()
			require.NoError(t, <-ended)
		}
	}
	t.Cleanup(r.stop)
	return r
}

func (r *running) host() string { return strings.TrimPrefix(r.address, "http://") }

// phone is one browser profile with a page of a phone's size.
type phone struct {
	t   *testing.T
	ctx context.Context
}

func newPhone(t *testing.T, profile string, more ...chromedp.ExecAllocatorOption) *phone {
	t.Helper()
	options := append(browsertest.Options(),
		chromedp.ExecPath(chromium(t)), chromedp.UserDataDir(profile), chromedp.WindowSize(390, 844))
	options = append(options, more...)
	allocator, cancelAllocator := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, cancel := chromedp.NewContext(allocator)
	ctx, cancelTime := context.WithTimeout(ctx, 4*time.Minute)
	p := &phone{t: t, ctx: ctx}
	t.Cleanup(func() { cancelTime(); cancel(); cancelAllocator() })
	require.NoError(
		t,
		chromedp.Do(ctx, chromedp.Navigate("about:blank")),
	) // the browser lives as long as the context of its first action
	p.do(chromedp.EmulateViewport(390, 844, chromedp.EmulateMobile, chromedp.EmulateTouch))
	return p
}

// do runs actions with a time limit. A failure prints the page's text.
func (p *phone) do(actions ...chromedp.Action[chromedp.Void]) {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, 40*time.Second)
	defer cancel()
	p.check(chromedp.Do(ctx, actions...))
}

func (p *phone) check(err error) {
	p.t.Helper()
	if err != nil {
		where, _ := chromedp.Run(
			p.ctx,
			chromedp.Evaluate[string](
				`location.href + ' ' + JSON.stringify(document.documentElement.dataset) + '\n' +
					document.body.innerText.slice(0, 1500)`,
			),
		)
		require.NoError(p.t, err, where)
	}
}

// open navigates to an address.
func (p *phone) open(address string) {
	p.t.Helper()
	p.do(chromedp.Navigate(address))
}

// until waits for a JavaScript expression to be true.
func (p *phone) until(expression string) {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, 30*time.Second)
	defer cancel()
	for {
		ok, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`!!(`+expression+`)`))
		if err == nil && ok {
			return
		}
		if ctx.Err() != nil {
			p.check(fmt.Errorf("waited in vain for %s: %w", expression, ctx.Err()))
		}
		select {
		case <-ctx.Done():
		case <-time.After(50 * time.Millisecond): // the browser sends no event when its page changes
		}
	}
}

// ready waits until the on-device core is ready and a service worker controls the page.
func (p *phone) ready() {
	p.t.Helper()
	p.until(
		`document.documentElement.dataset.ready === 'yes' && !document.documentElement.dataset.shell &&
			navigator.serviceWorker && navigator.serviceWorker.controller`,
	)
}

// sees waits until the page shows a text.
func (p *phone) sees(text string) {
	p.t.Helper()
	p.until(fmt.Sprintf(`document.body && document.body.innerText.includes(%q)`, text))
}

// text evaluates an expression and returns its value as text.
func (p *phone) text(expression string) string {
	p.t.Helper()
	value, err := chromedp.Run(p.ctx, chromedp.Evaluate[string](`String(`+expression+`)`))
	p.check(err)
	return value
}

// tap clicks the first element that matches a selector, once it exists.
func (p *phone) tap(selector string) {
	p.t.Helper()
	p.until(fmt.Sprintf(`document.querySelector(%q)`, selector))
	p.text(fmt.Sprintf(`document.querySelector(%q).click()`, selector))
}

// wake does what happens when the page comes back into view.
func (p *phone) wake() {
	p.t.Helper()
	p.text(`window.dispatchEvent(new Event('focus'))`)
}

// fill sets the value of a field.
func (p *phone) fill(selector, text string) {
	p.t.Helper()
	p.until(fmt.Sprintf(`document.querySelector(%q)`, selector))
	p.text(
		fmt.Sprintf(
			`(() => { const f = document.querySelector(%q); f.value = %q;
				f.dispatchEvent(new Event('input', { bubbles: true })); })()`,
			selector, text,
		),
	)
}

// shot writes a screenshot if SHOTS names a folder.
func (p *phone) shot(name string) {
	p.t.Helper()
	dir := os.Getenv("SHOTS")
	if dir == "" {
		return
	}
	png, err := chromedp.Run(p.ctx, chromedp.CaptureScreenshot())
	p.check(err)
	require.NoError(p.t, os.MkdirAll(dir, 0o755))
	require.NoError(p.t, os.WriteFile(dir+"/"+name+".png", png, 0o644))
}

// join opens a link and joins under a name.
func (p *phone) join(link, name string) {
	p.t.Helper()
	p.open(link)
	if name != "" {
		p.fill(`#join-name`, name)
	}
	p.until(`document.querySelector('#join [name=token]').value`)
	p.tap(`#join button[type=submit]`)
}
