package simulation

import (
	"bytes"
	"strings"

	"garlandry/app/sync/phone"
)

// disk is a phone's storage, shared by its tabs: rows, and the token of the last commit. Only whole commits change it.
type disk struct {
	rows  map[string][]byte
	token string
	name  string // changes when the storage is emptied
	rev   uint64 // revision of the last step
	full  bool   // it refuses commits
}

// commit is one transaction. It succeeds only if the disk has the expected token, and it writes the next one.
type commit struct {
	expected, next string
	step           phone.Step
	own            []phone.Row
}

// verdict is the result of a commit.
type verdict int

const (
	done    verdict = iota
	stale           // another tab was faster; nothing changed
	refused         // the storage refused it
)

func newDisk() *disk { return &disk{rows: map[string][]byte{}} }

func (d *disk) clone() *disk {
	c := &disk{rows: make(map[string][]byte, len(d.rows)), token: d.token, name: d.name, rev: d.rev}
	for key, value := range d.rows {
		c.rows[key] = value
	}
	return c
}

// evict empties the storage, as a browser that needs room or a person may.
func (d *disk) evict() { *d = *newDisk() }

func (d *disk) read(ranges ...phone.Range) []phone.Row {
	var rows []phone.Row
	for _, r := range ranges {
		for key, value := range d.rows {
			if r.Has(key) {
				rows = append(rows, phone.Row{Key: key, Value: value})
			}
		}
	}
	return rows
}

// commit applies a commit. A retried commit that finds its own token succeeded the first time, which holds only if
// every commit has a token of its own.
func (d *disk) commit(c commit) verdict {
	switch {
	case d.full:
		return refused
	case d.token == c.next:
		return done
	case d.token != c.expected:
		return stale
	}
	for _, r := range c.step.Drop {
		for key := range d.rows {
			if r.Has(key) {
				delete(d.rows, key)
			}
		}
	}
	for _, key := range c.step.Delete {
		delete(d.rows, key)
	}
	for _, rows := range [][]phone.Row{c.step.Put, c.own} {
		for _, row := range rows {
			d.rows[row.Key] = row.Value
		}
	}
	if d.name == "" {
		d.name = "storage of " + c.next
	}
	d.token, d.rev = c.next, c.step.Rev
	return done
}

// outbox lists the operations that wait for the server.
func (d *disk) outbox() []string {
	var ids []string
	for key, value := range d.rows {
		if strings.HasPrefix(key, "out/") && !settled(value) {
			ids = append(ids, idOf(value))
		}
	}
	return ids
}

// settled reports whether the server has the operation of an outbox row.
func settled(row []byte) bool {
	return bytes.Contains(row, []byte(`,"acked":true`)) || bytes.Contains(row, []byte(`,"held":true`))
}

// holds reports whether any row under the prefixes holds the operation.
func (d *disk) holds(id string, prefixes ...string) bool {
	for key, value := range d.rows {
		for _, p := range prefixes {
			if strings.HasPrefix(key, p) && idOf(value) == id {
				return true
			}
		}
	}
	return false
}

// idOf finds the operation's id in a row: an outbox row, a note or a record.
func idOf(row []byte) string {
	_, rest, _ := bytes.Cut(row, []byte(`"i":"`))
	id, _, _ := bytes.Cut(rest, []byte{'"'})
	return string(id)
}
