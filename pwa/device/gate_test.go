package device_test

import (
	"slices"
	"strings"

	"garlandry/app/sync"
	"garlandry/pwa/device"
)

// watch records from now on which other jobs' logs are read and committed.
func (h *handle) watch(own string) (others func() []string) {
	h.set(func(h *handle) { h.own = own })
	return func() []string {
		h.mu.Lock()
		defer h.mu.Unlock()
		return slices.Clone(h.others)
	}
}

// waits reports whether a read or commit waits at the gate.
func (h *handle) waits() bool {
	h.mu.Lock()
	defer h.mu.Unlock()
	return len(h.at) > 0
}

// pass records access to another job's log and makes it wait at the gate.
func (h *handle) pass(key string) {
	h.mu.Lock()
	kind, log, inLog := strings.Cut(key, "/")
	log, _, _ = strings.Cut(log, "/")
	if h.own == "" || !inLog || kind == "post" || strings.TrimSuffix(log, sync.OwnSuffix) == h.own || len(log) < 10 {
		h.mu.Unlock()
		return
	}
	h.others = append(h.others, log)
	gate := h.gate
	if gate != nil {
		h.at = append(h.at, key)
	}
	h.mu.Unlock()
	if gate != nil {
		<-gate
	}
}

// text returns the value stored under a key.
func (d *disk) text(key string) string {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.rows[key]
}

// mark records that a post is being stored. The disk is locked.
func (h *handle) mark(b device.Batch) {
	for _, e := range b.Put {
		if strings.HasPrefix(e.Key, "post/") {
			h.others = append(h.others, e.Key)
		}
	}
}
