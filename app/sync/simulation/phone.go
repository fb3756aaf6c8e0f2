package simulation

import (
	"fmt"
	"sort"
	"strings"

	"garlandry/app/job"
	"garlandry/app/sync"
)

// storage is a phone's disk: rows, changed by whole steps only.
type storage map[string][]byte

func (s storage) clone() storage {
	c := storage{}
	for key, value := range s {
		c[key] = value
	}
	return c
}

func (s storage) read(ranges []sync.Range) []sync.Row {
	var rows []sync.Row
	for _, key := range sortedKeys(s) {
		for _, r := range ranges {
			if r.Has(key) {
				rows = append(rows, sync.Row{Key: key, Value: s[key]})
				break
			}
		}
	}
	return rows
}

// commit writes a step unless another tab was faster.
func (s storage) commit(step sync.Step) bool {
	if sync.Revision(s[sync.RowPhone]) != step.If {
		return false
	}
	for _, r := range step.Drop {
		for key := range s {
			if r.Has(key) {
				delete(s, key)
			}
		}
	}
	for _, key := range step.Delete {
		delete(s, key)
	}
	for _, row := range step.Put {
		s[row.Key] = row.Value
	}
	return true
}

// holds reports whether any row under the prefixes holds the operation.
func (s storage) holds(id string, prefixes ...string) bool {
	for key, value := range s {
		for _, p := range prefixes {
			if strings.HasPrefix(key, p) && strings.Contains(string(value), `"i":"`+id) {
				return true
			}
		}
	}
	return false
}

// phone is one device: a disk, a clock that is off, a person, and one or two tabs over the disk.
type phone struct {
	name    string
	member  int
	role    job.Role
	disk    storage
	clock   int64 // off the true time, ms
	tabs    []*tab
	logs    []string
	isClone bool
}

// tab is one running app. A killed tab has no phone until it is opened again.
type tab struct {
	on    *phone
	phone *sync.Phone
	life  int // goes up when killed: answers to an earlier life reach nobody
}

func (w *world) phoneOptions(ph *phone) sync.PhoneOptions {
	return sync.PhoneOptions{Now: func() int64 { return w.time + ph.clock }, NewID: w.newID, Jitter: w.rng.Float64,
		MaxOps: 5, MaxHeal: 6, MaxRecs: 7, SnapshotEvery: 9}
}

// open starts a tab from the disk. It may lose against another tab at the first writes, and tries again.
func (w *world) open(t *tab) error {
	for t.phone == nil {
		p, step, err := sync.OpenPhone(t.on.disk.read(sync.OpenRanges()), w.phoneOptions(t.on))
		if err != nil {
			return fmt.Errorf("open phone %s: %w", t.on.name, err)
		}
		t.phone = p
		if !w.commit(t, step) {
			continue
		}
		for _, log := range t.on.logs {
			step, err := p.Track(log)
			if err != nil {
				return err
			}
			if !w.commit(t, step) {
				break
			}
			if err := w.load(t, log); err != nil {
				return err
			}
			if t.phone == nil {
				break
			}
		}
	}
	return nil
}

// load gives the tab what it wants of a log.
func (w *world) load(t *tab, log string) error {
	for tries := 0; t.phone != nil; tries++ {
		wants := t.phone.Wants(log)
		if len(wants) == 0 {
			return nil
		}
		if tries > 5 {
			return fmt.Errorf("phone %s wants %v again and again", t.on.name, wants)
		}
		step, err := t.phone.Give(log, t.on.disk.read(wants))
		if err != nil {
			return fmt.Errorf("load %s on phone %s: %w", log, t.on.name, err)
		}
		if !step.Empty() {
			w.note("phone %s finds %s incomplete", t.on.name, log)
		}
		w.commit(t, step)
	}
	return nil
}

// commit writes a tab's step, or kills the tab if it cannot: another tab wrote in between.
func (w *world) commit(t *tab, step sync.Step) bool {
	if step.Empty() {
		return true
	}
	if !t.on.disk.commit(step) {
		w.note("phone %s: another tab was faster", t.on.name)
		w.kill(t)
		return false
	}
	return true
}

func (w *world) kill(t *tab) {
	t.phone = nil
	t.life++
}

func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	return keys
}
