// Package cache holds a bounded number of computed values in memory.
package cache

import "sync"

// DefaultSize is the number of values that a [Cache] without a Size holds.
const DefaultSize = 64

// Cache maps keys to values. A new key in a full cache evicts the entry that was read or written least recently. The
// zero Cache is ready to use; its methods are safe for concurrent use.
type Cache[K comparable, V any] struct {
	Size int // the most entries; 0 means [DefaultSize]. Set it before the first Put

	mu      sync.Mutex
	entries map[K]*entry[V]
	uses    uint64 // reads and writes so far
}

type entry[V any] struct {
	value V
	used  uint64 // the number of the last read or write
}

// Get returns the value of a key, and whether there is one.
func (c *Cache[K, V]) Get(key K) (value V, found bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	e := c.entries[key]
	if e == nil {
		return value, false
	}
	c.touch(e)
	return e.value, true
}

// Put sets the value of a key.
func (c *Cache[K, V]) Put(key K, value V) {
	c.mu.Lock()
	defer c.mu.Unlock()
	e := c.entries[key]
	if e == nil {
		c.makeRoom()
		e = &entry[V]{}
		c.entries[key] = e
	}
	e.value = value
	c.touch(e)
}

func (c *Cache[K, V]) touch(e *entry[V]) {
	c.uses++
	e.used = c.uses
}

// makeRoom makes the map if there is none and evicts entries until one more fits.
func (c *Cache[K, V]) makeRoom() {
	if c.entries == nil {
		c.entries = map[K]*entry[V]{}
	}
	size := c.Size
	if size <= 0 {
		size = DefaultSize
	}
	for len(c.entries) >= size {
		var oldest K
		first := true
		for key, e := range c.entries {
			if first || e.used < c.entries[oldest].used {
				oldest, first = key, false
			}
		}
		delete(c.entries, oldest)
	}
}
