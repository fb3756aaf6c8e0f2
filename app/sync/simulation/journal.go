package simulation

import (
	"slices"

	"garlandry/app/job"
)

// journalRoom is how many entries a journal holds. A full journal refuses new entries and keeps the old ones.
const journalRoom = 12

// journal is a phone's write-ahead log, in a separate storage: each tap is written here first and removed once the
// server has acknowledged it.
type journal struct{ entries []*entry }

// entry is one tap and the operations that a tab has made of it, if any. Operations keep their ids.
type entry struct {
	tap    *tap
	ops    []job.Op
	stored bool // the phone's storage had it at the last report
}

// keep adds an entry. It returns false if the journal is full.
func (j *journal) keep(t *tap) bool {
	if len(j.entries) >= journalRoom {
		return false
	}
	j.entries = append(j.entries, &entry{tap: t})
	return true
}

func (j *journal) of(t *tap) *entry {
	for _, e := range j.entries {
		if e.tap == t {
			return e
		}
	}
	return nil
}

func (j *journal) drop(t *tap) {
	for i, e := range j.entries {
		if e.tap == t {
			j.entries = append(j.entries[:i:i], j.entries[i+1:]...)
			return
		}
	}
}

func (j *journal) holds(id string) bool {
	for _, e := range j.entries {
		for _, op := range e.ops {
			if op.ID == id {
				return true
			}
		}
	}
	return false
}

func (j *journal) clone() *journal {
	c := &journal{}
	for _, e := range j.entries {
		copied := *e
		c.entries = append(c.entries, &copied)
	}
	return c
}

// settle removes shared operations: the storage knows their form, so it was not emptied since, and they are not in its
// outbox. An entry without operations is removed.
func (j *journal) settle(d *disk) {
	if len(j.entries) == 0 {
		return
	}
	waiting := map[string]bool{}
	for _, id := range d.outbox() {
		waiting[id] = true
	}
	kept := j.entries[:0:0]
	for _, e := range j.entries {
		if _, known := d.rows[postKey(e.tap)]; !known || !e.stored {
			kept = append(kept, e)
			continue
		}
		e.ops = slices.DeleteFunc(slices.Clone(e.ops), func(op job.Op) bool { return !waiting[op.ID] })
		if len(e.ops) > 0 {
			kept = append(kept, e)
		}
	}
	j.entries = kept
}

func postKey(t *tap) string { return "post/" + t.id }
