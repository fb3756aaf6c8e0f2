package main

import (
	"context"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
)

// firstJob opens the first job on the list and returns its path.
func (p *phone) firstJob(server *running) string {
	p.t.Helper()
	p.join(server.link, "")
	p.ready()
	p.until(`document.querySelector('a[href^="/jobs/"]')`)
	return p.text(`document.querySelector('a[href^="/jobs/"]').getAttribute('href')`)
}

// onEveryPage runs a script in every page before the page's own scripts.
func (p *phone) onEveryPage(script string) {
	p.t.Helper()
	_, err := chromedp.Call(p.ctx, page.AddScriptToEvaluateOnNewDocument,
		page.AddScriptToEvaluateOnNewDocumentParams{Source: script})
	p.check(err)
}

// worker returns the context of the page's worker and a function that releases it.
func (p *phone) worker() (context.Context, context.CancelFunc) {
	p.t.Helper()
	targets, err := chromedp.Targets(p.ctx)
	p.check(err)
	for _, target := range targets {
		if target.Type == "worker" {
			return chromedp.NewContext(p.ctx, chromedp.WithTargetID(target.TargetID), chromedp.WithDetachOnCancel())
		}
	}
	p.t.Fatal("the page has no worker")
	return nil, nil
}

// coreStops makes the worker report that the core has stopped.
func (p *phone) coreStops() {
	p.t.Helper()
	ctx, leave := p.worker()
	defer leave()
	_, err := chromedp.Run(ctx,
		chromedp.Evaluate[string](`String(self.postMessage({ type: 'failed', why: 'stopped by a test' }))`))
	p.check(err)
}

// TestBrowserFormBeforeTheCore checks that a form sent while the core is starting shows its result, accepted or
// refused.
func TestBrowserFormBeforeTheCore(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	p := newPhone(t, t.TempDir())
	at := p.firstJob(server) + "/brief"
	p.onEveryPage(`addEventListener('DOMContentLoaded', () => {
		const title = document.querySelector('#page [name="title"]');
		if (!title || !window.name) return;
		title.value = window.name === 'none' ? '' : window.name;
		window.early = document.documentElement.dataset.ready !== 'yes';
		title.form.querySelector('button[type=submit]').click();
		window.name = '';
	})`)
	for _, c := range []struct{ name, typed, comes string }{
		{"refused", "none", `document.querySelector('#page [name="title"]').getAttribute('aria-invalid') === 'true'`},
		{"taken", "Quayside supper",
			`!location.pathname.endsWith('/brief') && document.body.innerText.includes('Quayside supper')`},
	} {
		t.Run(c.name, func(t *testing.T) {
			p.text(`window.name = '` + c.typed + `'`)
			p.open(server.address + at + "?from=server")
			p.until(`window.early`)
			p.until(c.comes)
			p.until(`Object.keys(localStorage).every((key) => !key.startsWith('garlandry-journal'))`)
		})
	}
}

// TestBrowserCoreThatStops checks that a core that stops is restarted without losing its work, and that after repeated
// stops forms go to the server.
func TestBrowserCoreThatStops(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	p := newPhone(t, t.TempDir())
	at := p.firstJob(server)
	p.until(`document.querySelector('#state').innerText.includes('hared')`) // the phone has the job
	p.open(server.address + at + "/cards/look")
	p.ready()
	p.until(`document.documentElement.dataset.waiting === '0'`)
	p.text(`window.first = performance.now()`)
	p.text(`document.documentElement.dataset.ready = 'waits'`)
	p.coreStops()
	p.until(`document.documentElement.dataset.ready === 'yes'`)
	p.tap(`#page form[data-core] button[type=submit]`)
	p.until(`document.documentElement.dataset.waiting === '0' && document.querySelector('#flash > *')`)
	assert.NotEmpty(t, p.text(`window.first`), "the page was not loaded anew")
	p.coreStops()
	p.until(`document.documentElement.dataset.ready === 'no'`)
	p.tap(`#flash form button`) // the server handles the undo
	p.until(`document.querySelector('form [name=act][value=tick]')`)
	assert.NotEmpty(t, p.text(`window.first`), "the page was not loaded anew")
}

// TestBrowserJournalOfTwoTabs checks that two tabs store their forms under different names.
func TestBrowserJournalOfTwoTabs(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	p := newPhone(t, t.TempDir())
	p.firstJob(server)
	left := p.promised(
		`import(document.querySelector('script[type=module]').src.replace('main.js', 'journal.js')).then(({ Journal }) => {
		const one = new Journal(), other = new Journal();
		one.keep({ id: 'a', form: 'f' });
		other.keep({ id: 'b', form: 'f' });
		one.drop('a');
		return one.left().map((entry) => entry.id).join();
	})`,
	)
	assert.Equal(t, "b", left)
}

// TestBrowserCutOffLink checks that a truncated link gives an error message and that the page's script keeps working.
func TestBrowserCutOffLink(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	p := newPhone(t, t.TempDir())
	p.open(server.address + "/j#abc%E0%A4")
	p.until(`document.querySelector('#join [name=token]').value === 'abc%E0%A4'`)
	p.fill(`#join-name`, "Bea")
	p.tap(`#join button[type=submit]`)
	p.sees("There is no such link; check that it was copied whole.")
}

// TestBrowserSaveAsAFileWithoutSignal checks that "Save as a file" saves what the phone holds, with and without signal,
// including what waits.
func TestBrowserSaveAsAFileWithoutSignal(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	p := newPhone(t, t.TempDir())
	at := p.firstJob(server)
	p.open(server.address + at)
	p.ready()
	p.until(`document.querySelector('#state').innerText.includes('hared')`)
	server.stop()
	p.open(server.address + at + "/cards/look")
	p.ready()
	p.tap(`#page form[data-core] button[type=submit]`)
	p.until(`document.documentElement.dataset.waiting === '1'`)
	p.open(server.address + at)
	p.ready()
	p.text(
		`(() => { const real = URL.createObjectURL; URL.createObjectURL = (blob) => {
			blob.text().then((text) => { window.saved = text; }); return real.call(URL, blob); }; })()`,
	)
	p.tap(`a[download][href$="/export"]`)
	p.until(`window.saved && JSON.parse(window.saved).garlandry === 1 && window.saved.includes('card/look')`)
	assert.Equal(t, at, p.text(`location.pathname`))
}

// TestBrowserRedrawKeepsTypedText checks that a redraw keeps a field that somebody has typed into, together with its
// original value, and updates untouched fields and their original values.
func TestBrowserRedrawKeepsTypedText(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	p := newPhone(t, t.TempDir())
	p.firstJob(server)
	got := p.promised(
		`import(document.querySelector('script[type=module]').src.replace('main.js', 'patch.js')).then(({ patch }) => {
		const region = document.createElement('div');
		document.body.append(region);
		const drawn = (text) => '<form><input type="hidden" name="was.a" value="' + text +
			'"><textarea name="a">' + text + '</textarea></form>';
		const says = () => [...region.querySelectorAll('[name]')].map((field) => field.value).join();
		patch(region, drawn('one'), true);
		patch(region, drawn('two'), true);
		const idle = says();
		region.querySelector('textarea').value = 'mine';
		patch(region, drawn('three'), true);
		return idle + ' ' + says();
	})`,
	)
	assert.Equal(t, "two,two two,mine", got)
}
