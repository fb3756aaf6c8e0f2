//go:build js && wasm

package main

import (
	"errors"
	"fmt"
	"runtime"
	"sync"
	"syscall/js"
	"time"

	"garlandry/pwa/device"
)

// host is the worker's JavaScript, through which the core reaches the browser.
type host struct{ js.Value }

func newHost() host { return host{js.Global().Get("garlandryHost")} }

// await waits for a promise. It must not be called from a JavaScript callback.
func await(promise js.Value) (js.Value, error) {
	type outcome struct {
		value js.Value
		err   error
	}
	settled := make(chan outcome, 1)
	resolve := js.FuncOf(func(_ js.Value, args []js.Value) any {
		settled <- outcome{value: first(args)}
		return nil
	})
	reject := js.FuncOf(func(_ js.Value, args []js.Value) any {
		settled <- outcome{err: errors.New(first(args).Call("toString").String())}
		return nil
	})
	defer resolve.Release()
	defer reject.Release()
	promise.Call("then", resolve, reject)
	o := <-settled
	return o.value, o.err
}

func first(args []js.Value) js.Value {
	if len(args) == 0 {
		return js.Undefined()
	}
	return args[0]
}

// Read returns what is stored in the spans, read in one transaction.
func (h host) Read(spans ...device.Span) (device.Snapshot, error) {
	found, err := await(h.Call("read", pairs(spans)))
	if err != nil {
		return device.Snapshot{}, fmt.Errorf("read the phone's storage: %w", err)
	}
	keys, values := found.Get("keys"), found.Get("values")
	snapshot := device.Snapshot{Generation: found.Get("generation").String(), Entries: make([]device.Entry, keys.Length())}
	for i := range snapshot.Entries {
		snapshot.Entries[i] = device.Entry{Key: keys.Index(i).String(), Text: values.Index(i).String()}
	}
	return snapshot, nil
}

// Commit writes a batch in one strict transaction. It reports false if the generation has changed.
func (h host) Commit(b device.Batch) (bool, error) {
	puts := make([]any, len(b.Put))
	for i, p := range b.Put {
		puts[i] = []any{p.Key, p.Text}
	}
	deletes := make([]any, len(b.Delete))
	for i, key := range b.Delete {
		deletes[i] = key
	}
	done, err := await(h.Call("commit", b.Expected, b.Next, b.Token, pairs(b.Empty), deletes, puts))
	if err != nil {
		return false, fmt.Errorf("write the phone's storage: %w", err)
	}
	return done.Bool(), nil
}

func pairs(spans []device.Span) []any {
	list := make([]any, len(spans))
	for i, s := range spans {
		list[i] = []any{s.First, s.Last}
	}
	return list
}

// Alone runs work while no other tab writes.
func (h host) Alone(work func() error) error {
	if end, err := await(h.Call("turn")); err == nil { // without a lock, tabs only retry more
		defer end.Invoke()
	}
	return work()
}

// fail tells the page that the core cannot start because the storage does not work. Forms then go to the server.
func (h host) fail(err error) {
	h.Call("say", map[string]any{"type": "failed", "why": err.Error(), "storage": true})
}

// pause lets the browser deliver waiting messages and answers of storage and network.
func (h host) pause() { _, _ = await(h.Call("pause")) } // it never fails

// Fetch sends one request to the server. Status 0 means that no answer came in time.
func (h host) Fetch(method, path, body string, limit time.Duration) device.Answer {
	answer, err := await(h.Call("fetch", method, path, body, limit.Milliseconds()))
	if err != nil {
		return device.Answer{}
	}
	return device.Answer{Status: answer.Get("status").Int(), Text: answer.Get("text").String(),
		RetryAfter: answer.Get("after").String()}
}

// random returns bytes from the browser's generator; package crypto/rand would weigh 100 kB.
func (h host) random(n int) []byte {
	b := make([]byte, n)
	array := js.Global().Get("Uint8Array").New(n)
	js.Global().Get("crypto").Call("getRandomValues", array)
	js.CopyBytesToGo(b, array)
	return b
}

// randomFloat returns a random number from 0 up to 1.
func (h host) randomFloat() float64 {
	share := 0.0
	for _, b := range h.random(4) {
		share = (share + float64(b)) / 256
	}
	return share
}

// zone returns the minutes east of UTC in a time zone, "" for the phone's own. The browser knows all zones; a table of
// our own would weigh 400 kB.
func (h host) zone(name string, ms int64) (int, bool) {
	written := h.Call("zone", name, float64(ms))
	if minutes, known := device.OffsetMinutes(written.String()); known {
		return minutes, true
	}
	if name != "" {
		return 0, false
	}
	// An old browser knows only its own zone.
	west := js.Global().Get("Date").New(float64(ms)).Call("getTimezoneOffset")
	return -west.Int(), true
}

// text returns what the host function with that name says about the phone; "" if it is not known.
func (h host) text(of string) string {
	if name := h.Call(of); name.Type() == js.TypeString {
		return name.String()
	}
	return ""
}

// TellOthers tells other tabs that the storage has changed.
func (h host) TellOthers() { h.Call("tellOthers") }

// Draw hands a drawing to the page.
func (h host) Draw(d device.Drawing) {
	parts := map[string]any{}
	for id, html := range d.Parts {
		parts[id] = html
	}
	message := map[string]any{"type": d.Type, "number": d.Number, "path": d.Path, "title": d.Title, "parts": parts,
		"stored": d.Stored, "copy": d.Copy, "refused": d.Refused,
		"waiting": d.Waiting, "name": d.Name, "mime": d.Mime, "text": d.Text}
	h.Call("say", message)
	if d.Number > 0 {
		collect()
	}
}

// collect collects garbage if the heap is half full. The browser cannot interrupt a collection, so a tap waits
// for its end: up to 60 ms on a slow phone. Right after an answer it is least in the way.
func collect() {
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	if m.HeapAlloc > m.NextGC/2 {
		runtime.GC()
	}
}

// inbox queues the page's messages in order. The page never waits.
func (h host) inbox() <-chan device.Message {
	var (
		mu      sync.Mutex
		waiting []device.Message
		wake    = make(chan struct{}, 1)
		out     = make(chan device.Message)
	)
	listener := js.FuncOf(func(_ js.Value, args []js.Value) any {
		mu.Lock()
		waiting = append(waiting, message(first(args)))
		mu.Unlock()
		select {
		case wake <- struct{}{}:
		default: // already signalled
		}
		return nil
	})
	go func() {
		for range wake {
			mu.Lock()
			batch := waiting
			waiting = nil
			mu.Unlock()
			for _, m := range batch {
				out <- m
			}
		}
	}()
	go h.Call("listen", listener)
	return out
}

func message(v js.Value) device.Message {
	text := func(name string) string {
		if field := v.Get(name); field.Type() == js.TypeString {
			return field.String()
		}
		return ""
	}
	m := device.Message{Type: text("type"), Path: text("path"), ID: text("id"), Job: text("job"), Text: text("text")}
	if n := v.Get("count"); n.Type() == js.TypeNumber {
		m.Count = n.Int()
	}
	m.Full = v.Get("full").Truthy()
	if n := v.Get("number"); n.Type() == js.TypeNumber {
		m.Number = n.Int()
	}
	if form := v.Get("form"); form.Type() == js.TypeObject {
		for i := range form.Length() {
			pair := form.Index(i)
			m.Form = append(m.Form, [2]string{pair.Index(0).String(), pair.Index(1).String()})
		}
	}
	return m
}
