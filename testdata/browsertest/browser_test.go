//go:build !js

package browsertest

import (
	"bytes"
	"image/png"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// pages are what the contract is checked on.
var pages = map[string]string{
	"/": `<!doctype html><meta name=viewport content="width=device-width, initial-scale=1"><title>Start</title>
<button id=one onclick="heard.push('one ' + event.isTrusted)">One</button>
<div style="height:3000px"></div>
<button id=far onclick="heard.push('far ' + event.isTrusted)">Far</button>
<label id=label><input id=box type=checkbox onclick="heard.push('box')"> Box</label>
<form onsubmit="heard.push('sent ' + text.value); return false"><input id=text></form>
<div style="height:3000px"></div>
<button id=under style="position:fixed;bottom:0">Under</button>
<div style="position:fixed;bottom:0;left:0;right:0;height:40px;background:#ccc">A bar</div>
<script>heard = []</script>`,
	"/other": `<!doctype html><title>Other</title><p>Other</p>`,
	"/sw.js": `self.addEventListener('fetch', e => e.respondWith(new Response('from the worker')));`,
	// WebKitGTK tells a worker that a module is compiled only when something else wakes it.
	"/worker.js": `const wakes = setInterval(() => {}, 50);
WebAssembly.compile(new Uint8Array([0,97,115,109,1,0,0,0]))
	.then(() => { clearInterval(wakes); postMessage('compiled') })`,
}

func contractSite(t *testing.T) (address string) {
	t.Helper()
	site := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		text, is := pages[r.URL.Path]
		if !is {
			http.NotFound(w, r)
			return
		}
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		if strings.HasSuffix(r.URL.Path, ".js") {
			w.Header().Set("Content-Type", "text/javascript")
		}
		_, _ = w.Write([]byte(text))
	}))
	t.Cleanup(site.Close)
	return site.URL
}

// row is one thing that every driver does alike.
type row struct {
	name  string
	check func(t *testing.T, b Browser, site string)
}

// pageRows are about opening, asking and sizing a page.
var pageRows = []row{
	{"a value comes as text", func(t *testing.T, b Browser, _ string) {
		assert.Equal(t, "3", value(t, b, `1 + 2`))
		assert.Equal(t, "undefined", value(t, b, `undefined`))
		assert.Equal(t, "true", value(t, b, `document.title === 'Start'`))
	}},
	{"an exception is an error", func(t *testing.T, b Browser, _ string) {
		_, err := b.Eval(`nothing.here`)
		assert.ErrorContains(t, err, "nothing")
	}},
	{"an address is opened", func(t *testing.T, b Browser, site string) {
		require.NoError(t, b.Open(site+"/other"))
		assert.Equal(t, "Other", value(t, b, `document.title`))
		require.NoError(t, b.Open("about:blank"))
		assert.Equal(t, "about:blank", value(t, b, `location.href`))
	}},
	{"a page has a phone's size", func(t *testing.T, b Browser, _ string) {
		assert.Equal(t, "390 844", value(t, b, `innerWidth + ' ' + innerHeight`))
	}},
	{"a page takes other sizes", func(t *testing.T, b Browser, _ string) {
		require.NoError(t, b.Size(320, 640))
		assert.Equal(t, "320 640", value(t, b, `innerWidth + ' ' + innerHeight`))
		require.NoError(t, b.Size(1280, 800))
		assert.Equal(t, "1280 800", value(t, b, `innerWidth + ' ' + innerHeight`))
	}},
}

// actRows are about what a person does, and what the engine must be able to do.
var actRows = []row{
	{"a tap is a person's", func(t *testing.T, b Browser, _ string) {
		require.NoError(t, b.Tap(`#one`))
		eventually(t, b, `heard.join()`, "one true")
	}},
	{"a tap scrolls first", func(t *testing.T, b Browser, _ string) {
		require.NoError(t, b.Tap(`#far`))
		eventually(t, b, `heard.join()`, "far true")
	}},
	{"a tap on a label meets its box", func(t *testing.T, b Browser, _ string) {
		require.NoError(t, b.Tap(`#box`))
		eventually(t, b, `heard.join()`, "box")
	}},
	{"a covered element cannot be tapped", func(t *testing.T, b Browser, _ string) {
		assert.ErrorContains(t, b.Tap(`#under`), "covered")
		assert.ErrorContains(t, b.Tap(`#nowhere`), "no element")
	}},
	{"keys go where the focus is", func(t *testing.T, b Browser, _ string) {
		for _, key := range []string{"Tab", "Enter", "Tab", "Tab", " ", "Tab", "h", "i", "Enter", "Shift+Tab"} {
			require.NoError(t, b.Press(key))
		}
		eventually(t, b, `heard.join()`, "one true,box,sent hi")
		eventually(t, b, `document.activeElement.id`, "box")
	}},
	{"a picture is a PNG of the page", func(t *testing.T, b Browser, _ string) {
		data, err := b.Picture()
		require.NoError(t, err)
		shape, err := png.DecodeConfig(bytes.NewReader(data))
		require.NoError(t, err)
		assert.InDelta(t, 390.0/844, float64(shape.Width)/float64(shape.Height), 0.01)
	}},
	{"WebAssembly compiles in a worker", func(t *testing.T, b Browser, _ string) {
		value(t, b, `(worker = new Worker('/worker.js'), worker.onmessage = e => heard.push(e.data),
			worker.onerror = e => heard.push(e.message))`)
		eventually(t, b, `heard.join()`, "compiled")
	}},
	{"a service worker answers", func(t *testing.T, b Browser, site string) {
		value(t, b, `navigator.serviceWorker.register('/sw.js').then(() => navigator.serviceWorker.ready)
			.then(() => heard.push('ready'))`)
		eventually(t, b, `heard.join()`, "ready")
		require.NoError(t, b.Open(site+"/other"))
		assert.Equal(t, "from the worker", value(t, b, `document.body.innerText`))
	}},
}

// TestBrowserContract checks that the three drivers mean the same by each of their methods.
func TestBrowserContract(t *testing.T) {
	Each(t, func(t *testing.T, engine Engine) {
		b := engine.Start(t, t.TempDir())
		for _, row := range slices.Concat(pageRows, actRows) {
			t.Run(row.name, func(t *testing.T) {
				site := contractSite(t)
				require.NoError(t, b.Size(390, 844))
				require.NoError(t, b.Open(site+"/"))
				row.check(t, b, site)
			})
		}
	})
}

// TestProfiles checks that two profiles share nothing.
func TestProfiles(t *testing.T) {
	Each(t, func(t *testing.T, engine Engine) {
		site := contractSite(t)
		first, second := engine.Start(t, t.TempDir()), engine.Start(t, t.TempDir())
		require.NoError(t, first.Open(site+"/"))
		require.NoError(t, second.Open(site+"/"))
		value(t, first, `(localStorage.setItem('mark', 'first'), document.cookie = 'mark=first')`)
		assert.Equal(t, "null", value(t, second, `localStorage.getItem('mark')`))
		assert.Empty(t, value(t, second, `document.cookie`))
		assert.Equal(t, "first", value(t, first, `localStorage.getItem('mark')`))
	})
}

func value(t *testing.T, b Browser, expression string) string {
	t.Helper()
	text, err := b.Eval(expression)
	require.NoError(t, err)
	return text
}

func eventually(t *testing.T, b Browser, expression, want string) {
	t.Helper()
	var have string
	wait(10*time.Second, func() bool {
		have, _ = b.Eval(expression)
		return have == want
	})
	require.Equal(t, want, have)
}
