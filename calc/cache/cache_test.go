package cache_test

import (
	"strconv"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/calc/cache"
)

func TestCacheEvictsTheLeastRecentlyUsed(t *testing.T) {
	rows := []struct {
		name string
		use  func(*cache.Cache[string, int])
		gone string
	}{
		{"written first", func(*cache.Cache[string, int]) {}, "a"},
		{"a read counts as use", func(c *cache.Cache[string, int]) { c.Get("a") }, "b"},
		{"a write counts as use", func(c *cache.Cache[string, int]) { c.Put("a", 1) }, "b"},
		{"a miss does not", func(c *cache.Cache[string, int]) { c.Get("z") }, "a"},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			c := cache.Cache[string, int]{Size: 2}
			c.Put("a", 1)
			c.Put("b", 2)
			row.use(&c)
			c.Put("c", 3)
			for key, want := range map[string]int{"a": 1, "b": 2, "c": 3} {
				got, found := c.Get(key)
				assert.Equal(t, key != row.gone, found, key)
				if found {
					assert.Equal(t, want, got, key)
				}
			}
		})
	}
}

func TestPutReplacesWithoutEviction(t *testing.T) {
	c := cache.Cache[string, int]{Size: 2}
	c.Put("a", 1)
	c.Put("b", 2)
	c.Put("b", 3)
	a, found := c.Get("a")
	assert.True(t, found)
	assert.Equal(t, 1, a)
	b, _ := c.Get("b")
	assert.Equal(t, 3, b)
}

func TestZeroCacheHoldsTheDefaultSize(t *testing.T) {
	var c cache.Cache[int, int]
	_, found := c.Get(0)
	assert.False(t, found, "an empty cache holds nothing")
	for i := range cache.DefaultSize + 1 {
		c.Put(i, i)
	}
	_, found = c.Get(0)
	assert.False(t, found, "one more than fits evicts the first")
	for i := 1; i <= cache.DefaultSize; i++ {
		_, found = c.Get(i)
		assert.True(t, found, i)
	}
}

func TestCacheIsSafeForConcurrentUse(t *testing.T) {
	c := cache.Cache[string, int]{Size: 8}
	var group sync.WaitGroup
	for worker := range 4 {
		group.Go(func() {
			for i := range 200 {
				key := strconv.Itoa((i + worker) % 16)
				c.Put(key, (i+worker)%16)
				if got, found := c.Get(key); found && strconv.Itoa(got) != key {
					t.Errorf("key %s holds %d", key, got)
				}
			}
		})
	}
	group.Wait()
}
