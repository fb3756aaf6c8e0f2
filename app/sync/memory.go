package sync

import (
	"strings"

	"garlandry/app/job"
)

// Memory is a ledger in memory, for tests and for trying things out. Use [NewMemory].
type Memory struct {
	log       string
	key       []byte
	head      Head
	recs      []job.Rec
	hashes    []string
	byID      map[string]int
	byNumber  map[deviceNumber]string
	lastOn    map[deviceRegister]lastOn
	restamps  map[string][]Restamp
	aside     map[string]Aside
	devices   map[string]string
	held      []Held
	heldIDs   map[string]bool
	heldBytes map[string]int
	heldOps   map[string]int
	used      map[string]Use
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

// NewMemory gives an empty log of a job made at the time, in Unix milliseconds.
func NewMemory(log, epoch string, key []byte, created int64) *Memory {
	m := &Memory{log: log, key: key}
	m.head = Head{Epoch: epoch, Created: created}
	m.byID, m.byNumber, m.lastOn = map[string]int{}, map[deviceNumber]string{}, map[deviceRegister]lastOn{}
	m.restamps, m.aside, m.devices = map[string][]Restamp{}, map[string]Aside{}, map[string]string{}
	m.used = map[string]Use{}
	m.heldIDs, m.heldBytes, m.heldOps = map[string]bool{}, map[string]int{}, map[string]int{}
	return m
}

// Clone gives an independent copy: a backup.
func (m *Memory) Clone() *Memory {
	c := NewMemory(m.log, m.head.Epoch, m.key, m.head.Created)
	for i, r := range m.recs {
		_ = c.Append(r, m.hashes[i], register(r.Op)) // in memory it cannot fail
	}
	for _, h := range m.held {
		_ = c.Hold(h) // in memory it cannot fail
	}
	for on, moved := range m.restamps {
		c.restamps[on] = append([]Restamp(nil), moved...)
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

// SetEpoch says that the log went back in time.
func (m *Memory) SetEpoch(epoch string) { m.head.Epoch = epoch }

// KeepDevices takes over whose device ids are, from a log that this one is put in the place of.
func (m *Memory) KeepDevices(before *Memory) {
	for device, owner := range before.devices {
		_ = m.BindDevice(device, owner) // in memory it cannot fail
	}
}

// Quarantine lists what is held.
func (m *Memory) Quarantine() []Held { return m.held }

// Unhold takes an operation out of quarantine, as after [Release].
func (m *Memory) Unhold(id string) {
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

// Log implements [Ledger].
func (m *Memory) Log() string { return m.log }

// Key implements [Ledger].
func (m *Memory) Key() []byte { return m.key }

// Head implements [Ledger].
func (m *Memory) Head() (Head, error) { return m.head, nil }

// SetHead implements [Ledger].
func (m *Memory) SetHead(h Head) error {
	m.head = h
	return nil
}

// ByID implements [Ledger].
func (m *Memory) ByID(id string) (job.Rec, bool, error) {
	i, found := m.byID[id]
	if !found {
		return job.Rec{}, false, nil
	}
	return m.recs[i], true, nil
}

// ByNumber implements [Ledger].
func (m *Memory) ByNumber(device string, number uint64) (string, bool, error) {
	id, found := m.byNumber[deviceNumber{device, number}]
	return id, found, nil
}

// LastOn implements [Ledger].
func (m *Memory) LastOn(device, register string) (uint64, int64, error) {
	last := m.lastOn[deviceRegister{device, register}]
	return last.number, last.effective, nil
}

// HashAt implements [Ledger].
func (m *Memory) HashAt(seq uint64) (string, bool, error) {
	if seq == 0 || seq > uint64(len(m.hashes)) {
		return "", false, nil
	}
	return m.hashes[seq-1], true, nil
}

// Read implements [Ledger].
func (m *Memory) Read(from uint64, limit int) ([]job.Rec, error) {
	if from == 0 {
		from = 1
	}
	if from > uint64(len(m.recs)) {
		return nil, nil
	}
	page := m.recs[from-1:]
	return append([]job.Rec(nil), page[:min(limit, len(page))]...), nil
}

// Append implements [Ledger].
func (m *Memory) Append(rec job.Rec, hash, register string) error {
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

// Restamps implements [Ledger].
func (m *Memory) Restamps(register string) ([]Restamp, error) { return m.restamps[register], nil }

// AddRestamp implements [Ledger].
func (m *Memory) AddRestamp(register string, r Restamp) error {
	for _, have := range m.restamps[register] {
		if have == r {
			return nil
		}
	}
	m.restamps[register] = append(m.restamps[register], r)
	return nil
}

// Aside implements [Ledger].
func (m *Memory) Aside(id string) (Aside, bool, error) {
	last, found := m.aside[id]
	return last, found, nil
}

// SetAside implements [Ledger].
func (m *Memory) SetAside(id string, last Aside) error {
	m.aside[id] = last
	return nil
}

// DeviceOf implements [Ledger].
func (m *Memory) DeviceOf(device string) (string, error) { return m.devices[device], nil }

// BindDevice implements [Ledger].
func (m *Memory) BindDevice(device, owner string) error {
	if m.devices[device] == "" {
		m.devices[device] = owner
	}
	return nil
}

// HeldBy implements [Ledger].
func (m *Memory) HeldBy(session string) (int, int, error) {
	return m.heldOps[session], m.heldBytes[session], nil
}

// IsHeld implements [Ledger].
func (m *Memory) IsHeld(id string) (bool, error) { return m.heldIDs[id], nil }

// Hold implements [Ledger].
func (m *Memory) Hold(h Held) error {
	m.held = append(m.held, h)
	m.heldIDs[h.Op.ID] = true
	m.heldOps[h.Session]++
	m.heldBytes[h.Session] += h.Bytes()
	return CountHeld(m, h, true)
}

// Used implements [Ledger].
func (m *Memory) Used(name string) (Use, error) { return m.used[name], nil }

// AddUse implements [Ledger].
func (m *Memory) AddUse(name string, more Use) error {
	sum := m.used[name].Plus(more)
	m.used[name] = Use{max(sum.Ops, 0), max(sum.Bytes, 0)}
	return nil
}

// Uses implements [Ledger].
func (m *Memory) Uses(prefix string) (map[string]Use, error) {
	found := map[string]Use{}
	for name, use := range m.used {
		if strings.HasPrefix(name, prefix) {
			found[name] = use
		}
	}
	return found, nil
}

// DropUse implements [Ledger].
func (m *Memory) DropUse(from, to string) error {
	for name := range m.used {
		if from <= name && name < to {
			delete(m.used, name)
		}
	}
	return nil
}
