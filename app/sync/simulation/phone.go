package simulation

import (
	"sort"

	"garlandry/app/job"
	"garlandry/app/sync/phone"
)

// phone is one device: a storage, a journal, a clock that is off, a person, and up to three tabs over the storage.
type device struct {
	name    string
	member  int
	role    job.Role
	disk    *disk
	journal *journal
	clock   int64 // off the true time, ms
	tabs    []*tab
	logs    []string
	emptied int  // how often the storage was
	mixed   bool // operations came back behind later ones
}

// tab is one running app. A killed tab has no phone until it is opened again.
type tab struct {
	on      *device
	phone   *phone.Phone
	storage string          // its name then
	token   string          // of the storage, when this tab last read or wrote
	holds   []string        // operations that waited in the outbox then
	posts   map[string]bool // forms that the storage knew then
	draft   []*made         // what the commit under way would store
	news    bool            // another tab said that it wrote
	life    int             // goes up when killed: answers to an earlier life reach nobody
}

func (w *world) phoneOptions(ph *device) phone.Options {
	return phone.Options{Now: func() int64 { return w.time + ph.clock }, NewID: w.newID, Jitter: w.rng.Float64,
		MaxOps: 5, MaxHeal: 6, MaxRecs: 7, SnapshotEvery: 9}
}

// running returns a tab that runs, nil if none does.
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
