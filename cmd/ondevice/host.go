//go:build js && wasm

package main

import (
	"errors"
	"fmt"
	"sync"
	"syscall/js"
	"time"

	"garlandry/pwa/device"
)

// host is the worker's JavaScript: what the browser lends the core.
type host struct{ js.Value }

func newHost() host { return host{js.Global().Get("garlandryHost")} }

// await waits for a promise. It must not be called from a JavaScript callback.
func await(promise js.Value) (js.Value, error) {
	type outcome struct {
		value js.Value
		err   error
	}
	settled := make(chan outcome, 1)
	kept := js.FuncOf(func(_ js.Value, args []js.Value) any {
		settled <- outcome{value: first(args)}
		return nil
	})
	broken := js.FuncOf(func(_ js.Value, args []js.Value) any {
		settled <- outcome{err: errors.New(first(args).Call("toString").String())}
		return nil
	})
	defer kept.Release()
	defer broken.Release()
	promise.Call("then", kept, broken)
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

// Commit writes in one strict transaction, unless the generation is not the expected one any more.
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

// Alone runs work in this tab's turn to write.
func (h host) Alone(work func() error) error {
	if end, err := await(h.Call("turn")); err == nil { // without a turn it is only less fair
		defer end.Invoke()
	}
	return work()
}

// fail says that there can be no core, since the storage cannot be used; forms then go to the server.
func (h host) fail(err error) {
	h.Call("say", map[string]any{"type": "failed", "why": err.Error(), "storage": true})
}

// pause lets the browser deliver what waits: messages of the page, answers of the storage and of the network.
func (h host) pause() { _, _ = await(h.Call("pause")) } // it always comes back

// Fetch makes one exchange with the server; status 0 means that nothing came back in time.
func (h host) Fetch(method, path, body string, limit time.Duration) device.Answer {
	answer, err := await(h.Call("fetch", method, path, body, limit.Milliseconds()))
	if err != nil {
		return device.Answer{}
	}
	return device.Answer{Status: answer.Get("status").Int(), Text: answer.Get("text").String(),
		RetryAfter: answer.Get("after").String()}
}

// Persist asks the browser to keep what is stored, and says how much that is.
func (h host) Persist() (kept bool, bytes int64) {
	granted, err := await(h.Call("persist"))
	if err == nil {
		kept = granted.Truthy()
	}
	estimate, err := await(h.Call("estimate"))
	if err == nil && estimate.Get("usage").Type() == js.TypeNumber {
		bytes = int64(estimate.Get("usage").Float())
	}
	return kept, bytes
}

// random returns bytes from the browser's own source; package crypto/rand would weigh 100 kB.
func (h host) random(n int) []byte {
	b := make([]byte, n)
	array := js.Global().Get("Uint8Array").New(n)
	js.Global().Get("crypto").Call("getRandomValues", array)
	js.CopyBytesToGo(b, array)
	return b
}

// chance returns a number from 0 up to 1, from the same source.
func (h host) chance() float64 {
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
	west := js.Global().
		Get("Date").
		New(float64(ms)).
		Call("getTimezoneOffset")
		// an old browser, which knows its own zone only
	return -west.Int(), true
}

// home is the phone's own time zone.
func (h host) home() string {
	if name := h.Call("home"); name.Type() == js.TypeString {
		return name.String()
	}
	return ""
}

// TellOthers lets other tabs know that the storage has changed.
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
}

// inbox collects the page's messages in order, without ever making the page wait.
func (h host) inbox() <-chan device.Message {
	var (
		mu      sync.Mutex
		waiting []device.Message
		bell    = make(chan struct{}, 1)
		out     = make(chan device.Message)
	)
	ear := js.FuncOf(func(_ js.Value, args []js.Value) any {
		mu.Lock()
		waiting = append(waiting, message(first(args)))
		mu.Unlock()
		select {
		case bell <- struct{}{}:
		default: // it rings already
		}
		return nil
	})
	go func() {
		for range bell {
			mu.Lock()
			batch := waiting
			waiting = nil
			mu.Unlock()
			for _, m := range batch {
				out <- m
			}
		}
	}()
	go h.Call("listen", ear)
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
