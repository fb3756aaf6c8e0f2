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
	t       *testing.T
	browser browsertest.Browser
	ctx     context.Context // of Chromium, for what only chromedp can do; other engines have none
	limit   time.Duration   // how long until waits; 0 means half a minute
}

// newPhone starts Chromium with a profile folder.
func newPhone(t *testing.T, profile string, more ...chromedp.ExecAllocatorOption) *phone {
	t.Helper()
	chromium(t)
	browser, err := browsertest.StartChromium(profile, more...)
	require.NoError(t, err)
	t.Cleanup(func() { _ = browser.Close() })
	return &phone{t: t, browser: browser, ctx: browser.Context()}
}

// inEngines runs a browser test in Chromium, Firefox and WebKit. The given function starts one more phone.
func inEngines(t *testing.T, test func(t *testing.T, start func() *phone)) {
	t.Helper()
	browsertest.Each(t, func(t *testing.T, engine browsertest.Engine) {
		const limit = 90 * time.Second // six browsers share the processor
		test(t, func() *phone { return &phone{t: t, browser: engine.Start(t, t.TempDir()), limit: limit} })
	})
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
		where, _ := p.browser.Eval(`location.href + ' ' + JSON.stringify(document.documentElement.dataset) + '\n' +
			document.body.innerText.slice(0, 1500)`)
		require.NoError(p.t, err, where)
	}
}

// open navigates to an address.
func (p *phone) open(address string) {
	p.t.Helper()
	p.check(p.browser.Open(address))
}

// until waits for a JavaScript expression to be true.
func (p *phone) until(expression string) {
	p.t.Helper()
	limit := max(p.limit, 30*time.Second)
	for end := time.Now().Add(limit); ; {
		value, err := p.browser.Eval(`!!(` + expression + `)`)
		if err == nil && value == "true" {
			return
		}
		if time.Now().After(end) {
			p.check(fmt.Errorf("waited %v in vain for %s (the last fault: %v)", limit, expression, err))
		}
		time.Sleep(50 * time.Millisecond) // the browser sends no event when its page changes
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
	value, err := p.browser.Eval(expression)
	p.check(err)
	return value
}

// leaves runs what leaves the page once the browser has answered: an answer on its way when the page goes is lost.
func (p *phone) leaves(expression string) {
	p.t.Helper()
	p.text(`(setTimeout(() => ` + expression + `), '')`)
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
	png, err := p.browser.Picture()
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
