package device_test

import (
	"errors"
	"sort"
	"strings"
	gosync "sync"

	"garlandry/pwa/device"
)

// disk is one phone's storage in memory, shared by its tabs. It follows the same rules as static/js/disk.js: both pass
// the contract in contract_test.go.
type disk struct {
	mu         gosync.Mutex
	turn       gosync.Mutex // held by the tab whose turn to write it is
	generation string
	token      string // of the last commit
	rows       map[string]string
}

func (d *disk) keys() []string {
	d.mu.Lock()
	defer d.mu.Unlock()
	var keys []string
	for k := range d.rows {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	return keys
}

// texts lists all stored values.
func (d *disk) texts() []string {
	d.mu.Lock()
	defer d.mu.Unlock()
	var texts []string
	for _, text := range d.rows {
		texts = append(texts, text)
	}
	sort.Strings(texts)
	return texts
}

// clear deletes everything under the running tabs, as a browser does when it needs room.
func (d *disk) clear() {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.generation, d.token, d.rows = "", "", map[string]string{}
}

// dead reports whether the tab was killed.
func (h *handle) dead() bool {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.left == 0
}

// handle is one tab's connection to the disk.
type handle struct {
	*disk
	full   bool // commits are refused
	silent bool // the next commit is written, but its answer is lost
	left   int  // commits until the tab is killed; below 0: never
	holds  bool // commits that empty a span are refused

	gate   chan struct{} // reads and commits of other jobs' logs wait for this to close
	at     []string      // what waits at the gate
	own    string        // the job that need not wait
	others []string      // logs of other jobs that were read or committed so far, in order

	slowKey string        // the commit that writes this key waits
	slowTo  chan struct{} // until this is closed

	dies      death       // how the connection of the next commit dies
	meanwhile func()      // happens before the commit is tried again, over a new connection
	before    func()      // happens before every commit; nothing is locked
	turnless  bool        // the browser has no locks, so Alone does not exclude other tabs
	really    device.Disk // if not nil, this is where everything is stored
	afterRead func()      // happens after every read; nothing is locked
}

// death says when a connection dies during a commit.
type death int

const (
	never   death = iota
	before        // nothing was written
	halfway       // something was written and is rolled back
	after         // everything was written, but the answer is lost
	noRoom        // the storage is full, so a retry does not help
)

var (
	errKilled = errors.New("this tab is dead")
	errFull   = errors.New("no room left")
)

func (h *handle) Read(spans ...device.Span) (device.Snapshot, error) {
	for _, s := range spans {
		h.pass(s.First)
	}
	h.mu.Lock()
	then := h.afterRead
	h.mu.Unlock()
	if then != nil {
		defer then()
	}
	if h.really != nil {
		return h.really.Read(spans...)
	}
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.left == 0 {
		return device.Snapshot{}, errKilled
	}
	found := device.Snapshot{Generation: h.generation}
	for _, s := range spans {
		found.Entries = append(found.Entries, h.span(s)...)
	}
	return found, nil
}

func (d *disk) span(s device.Span) []device.Entry {
	var entries []device.Entry
	for k, text := range d.rows {
		if s.First <= k && k < s.Last {
			entries = append(entries, device.Entry{Key: k, Text: text})
		}
	}
	sort.Slice(entries, func(a, b int) bool { return entries[a].Key < entries[b].Key })
	return entries
}

func (h *handle) Commit(b device.Batch) (bool, error) {
	h.mu.Lock()
	slowKey, slowTo, first := h.slowKey, h.slowTo, h.before
	h.mu.Unlock()
	for _, e := range b.Put {
		if strings.HasPrefix(e.Key, "log/") {
			h.pass(e.Key)
			break
		}
	}
	for _, e := range b.Put {
		if e.Key == slowKey {
			<-slowTo
		}
	}
	if first != nil {
		first()
	}
	if h.really != nil {
		return h.really.Commit(b)
	}
	done, died, err := h.try(b)
	if !died {
		return done, err
	}
	h.mu.Lock()
	meanwhile := h.meanwhile
	h.mu.Unlock()
	if meanwhile != nil {
		meanwhile()
	}
	done, _, err = h.try(b)
	return done, err
}

// try writes a batch, or simulates a dead connection. The caller retries once.
func (h *handle) try(b device.Batch) (done, died bool, err error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	dies := h.dies
	h.dies = never
	switch {
	case h.left == 0:
		return false, false, errKilled
	case h.full, h.holds && len(b.Empty) > 0, dies == noRoom:
		return false, false, errFull
	case dies == before, dies == halfway:
		return false, true, nil
	case h.token == b.Token && b.Token != "":
		return true, false, nil
	case h.generation != b.Expected:
		return false, false, nil
	}
	h.mark(b)
	h.write(b)
	if h.left > 0 {
		h.left--
	}
	if h.silent {
		h.silent = false
		return false, false, errors.New("the storage did not answer")
	}
	return true, dies == after, nil
}

func (d *disk) write(b device.Batch) {
	for _, s := range b.Empty {
		for k := range d.rows {
			if s.First <= k && k < s.Last {
				delete(d.rows, k)
			}
		}
	}
	for _, k := range b.Delete {
		delete(d.rows, k)
	}
	for _, e := range b.Put {
		d.rows[e.Key] = e.Text
	}
	d.generation, d.token = b.Next, b.Token
}

func (h *handle) Alone(work func() error) error {
	h.mu.Lock()
	turnless := h.turnless
	h.mu.Unlock()
	switch {
	case turnless:
		return work()
	case h.really != nil:
		return h.really.Alone(work)
	}
	h.turn.Lock()
	defer h.turn.Unlock()
	return work()
}

func (h *handle) set(change func(*handle)) {
	h.mu.Lock()
	defer h.mu.Unlock()
	change(h)
}
