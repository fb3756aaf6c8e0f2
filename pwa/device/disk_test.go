package device_test

import (
	"errors"
	"sort"
	gosync "sync"

	"garlandry/pwa/device"
)

// disk is the storage of one phone; its tabs share it.
type disk struct {
	mu         gosync.Mutex
	generation string
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

// handle is how one tab holds the disk.
type handle struct {
	*disk
	full   bool // commits are refused
	silent bool // the next commit is written, but its answer is lost
	left   int  // commits until the tab is killed; below 0: never
	holds  bool // commits that take a whole log off are refused

	slowKey string        // the commit that writes this key takes
	slowTo  chan struct{} // until this is closed
}

var errKilled = errors.New("this tab is dead")

func (h *handle) Read(s device.Span) ([]device.Entry, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.left == 0 {
		return nil, errKilled
	}
	var entries []device.Entry
	for k, text := range h.rows {
		if s.First <= k && k < s.Last {
			entries = append(entries, device.Entry{Key: k, Text: text})
		}
	}
	sort.Slice(entries, func(a, b int) bool { return entries[a].Key < entries[b].Key })
	return entries, nil
}

func (h *handle) Commit(b device.Batch) (bool, error) {
	h.mu.Lock()
	slowKey, slowTo := h.slowKey, h.slowTo
	h.mu.Unlock()
	for _, e := range b.Put {
		if e.Key == slowKey {
			<-slowTo
		}
	}
	h.mu.Lock()
	defer h.mu.Unlock()
	switch {
	case h.left == 0:
		return false, errKilled
	case h.full, h.holds && len(b.Empty) > 0:
		return false, errors.New("no room left")
	case h.generation != b.Expected:
		return false, nil
	}
	for _, s := range b.Empty {
		for k := range h.rows {
			if s.First <= k && k < s.Last {
				delete(h.rows, k)
			}
		}
	}
	for _, k := range b.Delete {
		delete(h.rows, k)
	}
	for _, e := range b.Put {
		h.rows[e.Key] = e.Text
	}
	h.generation = b.Next
	if h.left > 0 {
		h.left--
	}
	if h.silent {
		h.silent = false
		return false, errors.New("the storage did not answer")
	}
	return true, nil
}

func (h *handle) set(change func(*handle)) {
	h.mu.Lock()
	defer h.mu.Unlock()
	change(h)
}
