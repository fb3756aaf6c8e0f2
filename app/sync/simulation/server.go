package simulation

import (
	"errors"
	"fmt"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/memory"
	"garlandry/app/sync/server"
)

// Server is the server's side of a run. Member is the number that Join returned. Now is the server's clock.
type Server interface {
	// Join gives somebody access until ends. A run calls it before the first backup.
	Join(name string, role job.Role, ends, now int64) (member int, err error)
	// Revoke revokes a helper's link, or signs out a device of the owner.
	Revoke(member int, now int64) error
	Sync(member int, log string, req sync.Request, now int64) (sync.Response, error)
	// Backup saves the current state; Restore returns to the last one saved, with a new epoch if announced.
	Backup(now int64) error
	Restore(announced bool, now int64) error
	// Held lists a log's quarantine; Accept moves the quarantine of both logs into the job.
	Held(log string) ([]server.Held, error)
	Accept(jobID string, now int64) error
	Recs(log string) ([]job.Rec, error)
}

// memoryServer is a server whose ledgers are in memory.
type memoryServer struct {
	now      memoryState
	backup   *memoryState
	epochs   int
	closed   map[int]int64 // when each closed member was closed; survives a restore
	sabotage Sabotage
}

type memoryState struct {
	logs    map[string]*memory.Ledger
	members []member
}

type member struct {
	session server.Session
	ends    int64
}

// NewMemoryServer returns a server that keeps one job's two logs in memory.
func NewMemoryServer(jobID string, created int64) Server {
	return newMemoryServer(jobID, created, Nothing)
}

func newMemoryServer(jobID string, created int64, sabotage Sabotage) *memoryServer {
	m := &memoryServer{now: memoryState{logs: map[string]*memory.Ledger{}}, closed: map[int]int64{}, sabotage: sabotage}
	for _, log := range []string{jobID, jobID + sync.OwnSuffix} {
		m.now.logs[log] = memory.New(log, m.epoch(), []byte("a key of the simulation"), created)
	}
	return m
}

func (m *memoryServer) epoch() string {
	m.epochs++
	return fmt.Sprintf("epoch%d", m.epochs)
}

func (m *memoryServer) Join(name string, role job.Role, ends, _ int64) (int, error) {
	id := fmt.Sprintf("member%d", len(m.now.members))
	m.now.members = append(m.now.members,
		member{server.Session{ID: id, Author: job.Author{Role: role, Name: name, Link: id}}, ends})
	return len(m.now.members) - 1, nil
}

func (m *memoryServer) Revoke(member int, now int64) error {
	m.closed[member] = now
	return nil
}

func (m *memoryServer) Sync(member int, log string, req sync.Request, now int64) (sync.Response, error) {
	who := m.now.members[member]
	closedAt, closed := m.closed[member]
	switch late, over := m.late(who, now); {
	case closed:
		who.session.Closed, who.session.ClosedAt = sync.Revoked, closedAt
	case now >= who.ends && (!over || who.ends <= late):
		who.session.Closed, who.session.ClosedAt = sync.Ended, who.ends
	case over:
		who.session.Closed, who.session.ClosedAt = sync.Ended, late
	}
	resp, err := server.Serve(m.now.logs[log], who.session, req, now)
	if m.sabotage == NoDepth {
		err = errors.Join(err, m.appendUnchecked(who, log, req))
	}
	return resp, err
}

// late returns when the archived job closes to a helper, and whether it has.
func (m *memoryServer) late(who member, now int64) (int64, bool) {
	if who.session.Author.Role == job.Owner || now < start+30*day || m.sabotage == NoThirtyDays {
		return 0, false
	}
	recs, err := m.Recs(jobID)
	if err != nil {
		return 0, false
	}
	s := job.NewState()
	for _, r := range recs {
		if r.Entity == "brief" {
			s.Apply(r)
		}
	}
	away := s.Register("brief", "away")
	if string(away.Value()) != "true" {
		return 0, false
	}
	ends := away.Readings[0].Effective + 30*day
	return ends, now >= ends
}

// appendUnchecked writes deeply nested operations into the log without any check.
func (m *memoryServer) appendUnchecked(who member, log string, req sync.Request) error {
	l := m.now.logs[log]
	for _, op := range req.Ops {
		head, err := l.Head()
		if err != nil || depthOf(op.Value) <= maxDepth {
			return err
		}
		rec := job.Rec{Op: op, Effective: head.Latest, Seq: head.Seq + 1, Author: who.session.Author}
		head.Seq, head.Hash = rec.Seq, "a hash of the simulation"
		head.Count, head.Digest = head.Count+1, head.Digest+sync.Digest(rec)
		if err := errors.Join(l.Append(rec, head.Hash, ""), l.SetHead(head)); err != nil {
			return err
		}
	}
	return nil
}

func (s memoryState) clone() memoryState {
	c := memoryState{map[string]*memory.Ledger{}, append([]member(nil), s.members...)}
	for id, l := range s.logs {
		c.logs[id] = l.Clone()
	}
	return c
}

func (m *memoryServer) Backup(int64) error {
	kept := m.now.clone()
	m.backup = &kept
	return nil
}

func (m *memoryServer) Restore(announced bool, now int64) error {
	before := m.now
	m.now = m.backup.clone()
	if m.sabotage == ReopensLinks {
		clear(m.closed)
	}
	if !announced {
		return nil
	}
	for _, id := range sortedKeys(m.now.logs) {
		m.now.logs[id].SetEpoch(m.epoch())
		m.now.logs[id].KeepDevices(before.logs[id])
		if m.sabotage == QuarantineForgotten {
			continue
		}
		for _, h := range before.logs[id].Quarantine() { // a journal beside the database keeps the quarantine
			if err := m.hold(id, h); err != nil {
				return err
			}
		}
	}
	return nil
}

func (m *memoryServer) hold(log string, h server.Held) error {
	l := m.now.logs[log]
	held, err := l.IsHeld(h.Op.ID)
	if err != nil || held {
		return err
	}
	if _, found, err := l.ByID(h.Op.ID); err != nil || found {
		return err
	}
	return l.Hold(h)
}

func (m *memoryServer) Held(log string) ([]server.Held, error) {
	return m.now.logs[log].Quarantine(), nil
}

func (m *memoryServer) Accept(jobID string, now int64) error {
	for _, log := range []string{jobID, jobID + sync.OwnSuffix} {
		for _, h := range m.now.logs[log].Quarantine() {
			if err := server.Release(m.now.logs[log], h, now); err != nil {
				return err
			}
		}
	}
	return nil
}

func (m *memoryServer) Recs(log string) ([]job.Rec, error) { return m.now.logs[log].Read(1, 1<<30) }
