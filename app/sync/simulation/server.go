package simulation

import (
	"fmt"

	"garlandry/app/job"
	"garlandry/app/sync"
)

// Server is what a run needs of the server's side. Member is the number that Join gave out. Now is the server's clock.
type Server interface {
	// Join lets somebody in; they may stay until ends. Called before any backup is made.
	Join(name string, role job.Role, ends, now int64) (member int, err error)
	Revoke(member int, now int64) error
	Sync(member int, log string, req sync.Request, now int64) (sync.Response, error)
	// Backup keeps the present state; Restore goes back to the last one kept, with a new epoch if announced.
	Backup(now int64) error
	Restore(announced bool, now int64) error
	// Held lists what is in quarantine; Accept takes all of it into the log.
	Held(log string) ([]sync.Held, error)
	Accept(log string, now int64) error
	Recs(log string) ([]job.Rec, error)
}

// memory is a server whose ledgers are in memory.
type memory struct {
	now    memoryState
	backup *memoryState
	epochs int
}

type memoryState struct {
	logs    map[string]*sync.Memory
	members []member
}

type member struct {
	session sync.Session
	ends    int64
}

// NewMemoryServer gives a server that keeps one job's two logs in memory.
func NewMemoryServer(jobID string, created int64) Server {
	m := &memory{now: memoryState{logs: map[string]*sync.Memory{}}}
	for _, log := range []string{jobID, jobID + sync.OwnSuffix} {
		m.now.logs[log] = sync.NewMemory(log, m.epoch(), []byte("a key of the simulation"), created)
	}
	return m
}

func (m *memory) epoch() string {
	m.epochs++
	return fmt.Sprintf("epoch%d", m.epochs)
}

func (m *memory) Join(name string, role job.Role, ends, _ int64) (int, error) {
	id := fmt.Sprintf("member%d", len(m.now.members))
	m.now.members = append(m.now.members, member{sync.Session{ID: id, Author: job.Author{Role: role, Name: name, Link: id}}, ends})
	return len(m.now.members) - 1, nil
}

func (m *memory) Revoke(member int, now int64) error {
	who := &m.now.members[member]
	who.session.Closed, who.session.ClosedAt = sync.Revoked, now
	return nil
}

func (m *memory) Sync(member int, log string, req sync.Request, now int64) (sync.Response, error) {
	who := m.now.members[member]
	if who.session.Closed == "" && now >= who.ends {
		who.session.Closed, who.session.ClosedAt = sync.Ended, who.ends
	}
	return sync.Serve(m.now.logs[log], who.session, req, now)
}

func (s memoryState) clone() memoryState {
	c := memoryState{map[string]*sync.Memory{}, append([]member(nil), s.members...)}
	for id, l := range s.logs {
		c.logs[id] = l.Clone()
	}
	return c
}

func (m *memory) Backup(int64) error {
	kept := m.now.clone()
	m.backup = &kept
	return nil
}

func (m *memory) Restore(announced bool, _ int64) error {
	m.now = m.backup.clone()
	if announced {
		for _, id := range sortedKeys(m.now.logs) {
			m.now.logs[id].SetEpoch(m.epoch())
		}
	}
	return nil
}

func (m *memory) Held(log string) ([]sync.Held, error) { return m.now.logs[log].Quarantine(), nil }

func (m *memory) Accept(log string, now int64) error {
	for _, h := range m.now.logs[log].Quarantine() {
		if err := sync.Release(m.now.logs[log], h, now); err != nil {
			return err
		}
	}
	return nil
}

func (m *memory) Recs(log string) ([]job.Rec, error) { return m.now.logs[log].Read(1, 1<<30) }
