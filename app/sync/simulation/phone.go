package simulation

import (
	"sort"

	"garlandry/app/job"
	"garlandry/app/sync/phone"
)

// device is one phone: a storage, a journal, a wrong clock, a person, and up to three tabs over the storage.
type device struct {
	name    string
	member  int
	role    job.Role
	disk    *disk
	journal *journal
	clock   int64 // ahead of the true time, ms
	tabs    []*tab
	logs    []string
	emptied int  // how often its storage was emptied
	mixed   bool // operations were brought back out of order
}

// tab is one running app. A killed tab has no phone until it is reopened.
type tab struct {
	on      *device
	phone   *phone.Phone
	storage string          // name of the storage at the last read or write
	token   string          // token of the storage at the last read or write
	holds   []string        // operations in the outbox at the last read or write
	posts   map[string]bool // forms in the storage at the last read or write
	draft   []*trackedOp    // what the current commit would store
	news    bool            // another tab has written
	life    int             // counts kills: answers to an earlier life are dropped
}

func (w *world) phoneOptions(ph *device) phone.Options {
	return phone.Options{Now: func() int64 { return w.time + ph.clock }, NewID: w.newID, Jitter: w.rng.Float64,
		MaxOps: 5, MaxHeal: 6, MaxRecs: 7, SnapshotEvery: 9}
}

// running returns a running tab, or nil.
func (ph *device) running() *tab {
	for _, t := range ph.tabs {
		if t.phone != nil {
			return t
		}
	}
	return nil
}

func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	return keys
}
