package simulation

import (
	"bytes"
	"strings"

	"garlandry/app/sync/phone"
)

// disk is a phone's storage, shared by its tabs: rows, and the token of the last commit. It changes by whole commits
// only.
type disk struct {
	rows  map[string][]byte
	token string
	name  string // told apart from what stood there before it was emptied
	rev   uint64 // of the step written last
	full  bool   // commits are refused
}

// commit is one transaction: it happens only if the disk's token is the expected one, and leaves its own.
type commit struct {
	expected, next string
	step           phone.Step
	own            []phone.Row
}

// verdict is what a tab hears of a commit.
type verdict int

const (
	done    verdict = iota
	stale           // another tab was faster, nothing was changed
	refused         // the storage does not take it
)

func newDisk() *disk { return &disk{rows: map[string][]byte{}} }

func (d *disk) clone() *disk {
	c := &disk{rows: make(map[string][]byte, len(d.rows)), token: d.token, name: d.name, rev: d.rev}
	for key, value := range d.rows {
		c.rows[key] = value
	}
	return c
}

// evict empties the storage, as a browser does that needs room, or a person who clears it.
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

// commit writes, or says why not. Finding its own token there, a commit that is tried again knows that the first try
// went through: that is only true if no two commits have the same token.
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

// outbox lists the operations in the outbox that wait for the server.
func (d *disk) outbox() []string {
	var ids []string
	for key, value := range d.rows {
		if strings.HasPrefix(key, "out/") && !settled(value) {
			ids = append(ids, idOf(value))
		}
	}
	return ids
}

// settled reports whether an outbox row says that the server has the operation.
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
