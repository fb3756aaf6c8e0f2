// Package memory implements [server.Ledger] in memory, for tests and the simulation.
package memory

import (
	"strings"

	"garlandry/app/job"
	"garlandry/app/sync/server"
)

// Ledger is a log in memory. Make one with [New].
type Ledger struct {
	log       string
	key       []byte
	head      server.Head
	recs      []job.Rec
	hashes    []string
	byID      map[string]int
	byNumber  map[deviceNumber]string
	lastOn    map[deviceRegister]lastOn
	restamps  map[string][]server.Restamp
	aside     map[string]server.Aside
	devices   map[string]string
	held      []server.Held
	heldIDs   map[string]bool
	heldBytes map[string]int
	heldOps   map[string]int
	used      map[string]server.Use
}

type deviceNumber struct {
	device string
	number uint64
}

type deviceRegister struct{ device, register string }

type lastOn struct {
	number    uint64
	effective int64
}

// New returns an empty log of a job created at the given time, in Unix milliseconds.
func New(log, epoch string, key []byte, created int64) *Ledger {
	m := &Ledger{log: log, key: key}
	m.head = server.Head{Epoch: epoch, Created: created}
	m.byID, m.byNumber, m.lastOn = map[string]int{}, map[deviceNumber]string{}, map[deviceRegister]lastOn{}
	m.restamps, m.aside, m.devices = map[string][]server.Restamp{}, map[string]server.Aside{}, map[string]string{}
	m.used = map[string]server.Use{}
	m.heldIDs, m.heldBytes, m.heldOps = map[string]bool{}, map[string]int{}, map[string]int{}
	return m
}

// Clone returns an independent copy, as a backup.
func (m *Ledger) Clone() *Ledger {
	c := New(m.log, m.head.Epoch, m.key, m.head.Created)
	for i, r := range m.recs {
		_ = c.Append(r, m.hashes[i], server.Register(r.Op)) // in memory it cannot fail
	}
	for _, h := range m.held {
		_ = c.Hold(h) // in memory it cannot fail
	}
	for on, moved := range m.restamps {
		c.restamps[on] = append([]server.Restamp(nil), moved...)
	}
	for id, last := range m.aside {
		c.aside[id] = last
	}
	for device, owner := range m.devices {
		c.devices[device] = owner
	}
	for name, use := range m.used {
		c.used[name] = use
	}
	c.head = m.head
	return c
}

// SetEpoch starts a new epoch, as an announced restore does.
func (m *Ledger) SetEpoch(epoch string) { m.head.Epoch = epoch }

// KeepDevices copies the owners of device ids from the log that this one replaces.
func (m *Ledger) KeepDevices(before *Ledger) {
	for device, owner := range before.devices {
		_ = m.BindDevice(device, owner) // in memory it cannot fail
	}
}

// Quarantine lists the held operations.
func (m *Ledger) Quarantine() []server.Held { return m.held }

// Unhold removes an operation from quarantine, as after [server.Release].
func (m *Ledger) Unhold(id string) {
	for i, h := range m.held {
		if h.Op.ID == id {
			m.held = append(m.held[:i:i], m.held[i+1:]...)
			delete(m.heldIDs, id)
			m.heldOps[h.Session]--
			m.heldBytes[h.Session] -= h.Bytes()
			return
		}
	}
}

// Log implements [server.Ledger].
func (m *Ledger) Log() string { return m.log }

// Key implements [server.Ledger].
func (m *Ledger) Key() []byte { return m.key }

// Head implements [server.Ledger].
func (m *Ledger) Head() (server.Head, error) { return m.head, nil }

// SetHead implements [server.Ledger].
func (m *Ledger) SetHead(h server.Head) error {
	m.head = h
	return nil
}

// ByID implements [server.Ledger].
func (m *Ledger) ByID(id string) (job.Rec, bool, error) {
	i, found := m.byID[id]
	if !found {
		return job.Rec{}, false, nil
	}
	return m.recs[i], true, nil
}

// ByNumber implements [server.Ledger].
func (m *Ledger) ByNumber(device string, number uint64) (string, bool, error) {
	id, found := m.byNumber[deviceNumber{device, number}]
	return id, found, nil
}

// LastOn implements [server.Ledger].
func (m *Ledger) LastOn(device, register string) (uint64, int64, error) {
	last := m.lastOn[deviceRegister{device, register}]
	return last.number, last.effective, nil
}

// HashAt implements [server.Ledger].
func (m *Ledger) HashAt(seq uint64) (string, bool, error) {
	if seq == 0 || seq > uint64(len(m.hashes)) {
		return "", false, nil
	}
	return m.hashes[seq-1], true, nil
}

// Read implements [server.Ledger].
func (m *Ledger) Read(from uint64, limit int) ([]job.Rec, error) {
	if from == 0 {
		from = 1
	}
	if from > uint64(len(m.recs)) {
		return nil, nil
	}
	page := m.recs[from-1:]
	return append([]job.Rec(nil), page[:min(limit, len(page))]...), nil
}

// Append implements [server.Ledger].
func (m *Ledger) Append(rec job.Rec, hash, register string) error {
	m.byID[rec.ID] = len(m.recs)
	m.recs = append(m.recs, rec)
	m.hashes = append(m.hashes, hash)
	number := deviceNumber{rec.Device, rec.Number}
	if _, taken := m.byNumber[number]; !taken {
		m.byNumber[number] = rec.ID
	}
	if register != "" {
		on := deviceRegister{rec.Device, register}
		if rec.Number > m.lastOn[on].number {
			m.lastOn[on] = lastOn{rec.Number, rec.Effective}
		}
	}
	return nil
}

// Restamps implements [server.Ledger].
func (m *Ledger) Restamps(register string) ([]server.Restamp, error) {
	return m.restamps[register], nil
}

// AddRestamp implements [server.Ledger].
func (m *Ledger) AddRestamp(register string, r server.Restamp) error {
	for _, have := range m.restamps[register] {
		if have == r {
			return nil
		}
	}
	m.restamps[register] = append(m.restamps[register], r)
	return nil
}

// Aside implements [server.Ledger].
func (m *Ledger) Aside(id string) (server.Aside, bool, error) {
	last, found := m.aside[id]
	return last, found, nil
}

// SetAside implements [server.Ledger].
func (m *Ledger) SetAside(id string, last server.Aside) error {
	m.aside[id] = last
	return nil
}

// DeviceOf implements [server.Ledger].
func (m *Ledger) DeviceOf(device string) (string, error) { return m.devices[device], nil }

// BindDevice implements [server.Ledger].
func (m *Ledger) BindDevice(device, owner string) error {
	if m.devices[device] == "" {
		m.devices[device] = owner
	}
	return nil
}

// HeldBy implements [server.Ledger].
func (m *Ledger) HeldBy(session string) (int, int, error) {
	return m.heldOps[session], m.heldBytes[session], nil
}

// IsHeld implements [server.Ledger].
func (m *Ledger) IsHeld(id string) (bool, error) { return m.heldIDs[id], nil }

// Hold implements [server.Ledger].
func (m *Ledger) Hold(h server.Held) error {
	m.held = append(m.held, h)
	m.heldIDs[h.Op.ID] = true
	m.heldOps[h.Session]++
	m.heldBytes[h.Session] += h.Bytes()
	return server.CountHeld(m, h, true)
}

// Used implements [server.Ledger].
func (m *Ledger) Used(name string) (server.Use, error) { return m.used[name], nil }

// AddUse implements [server.Ledger].
func (m *Ledger) AddUse(name string, more server.Use) error {
	sum := m.used[name].Plus(more)
	m.used[name] = server.Use{Ops: max(sum.Ops, 0), Bytes: max(sum.Bytes, 0)}
	return nil
}

// Uses implements [server.Ledger].
func (m *Ledger) Uses(prefix string) (map[string]server.Use, error) {
	found := map[string]server.Use{}
	for name, use := range m.used {
		if strings.HasPrefix(name, prefix) {
			found[name] = use
		}
	}
	return found, nil
}

// DropUse implements [server.Ledger].
func (m *Ledger) DropUse(from, to string) error {
	for name := range m.used {
		if from <= name && name < to {
			delete(m.used, name)
		}
	}
	return nil
}
