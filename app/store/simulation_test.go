package store_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/app/sync"
	"garlandry/app/sync/server"
	"garlandry/app/sync/simulation"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// simulated is a store as the simulation's server. Backups are files; a restore closes and replaces the database.
type simulated struct {
	dir     string
	job     string
	now     int64
	store   *store.Store
	members []store.Session
	backup  string
	backups int
}

func newSimulated(dir, jobID string, created int64) (*simulated, error) {
	s := &simulated{dir: filepath.Join(dir, "data"), job: jobID, now: created}
	if err := s.open(); err != nil {
		return nil, err
	}
	_, err := s.store.CreateJob(context.Background(), s.store.System("Simulation"), jobID, nil)
	return s, err
}

func (s *simulated) options() store.Options { return store.Options{Now: func() int64 { return s.now }} }

func (s *simulated) open() (err error) {
	s.store, err = store.Open(s.dir, s.options())
	return err
}

func (s *simulated) Join(name string, role job.Role, ends, now int64) (int, error) {
	ctx := context.Background()
	s.now = now
	if role == job.Owner {
		invite, err := s.store.CreateOwnerInvite(ctx, s.store.System("test"))
		if err != nil {
			return 0, err
		}
		_, session, err := s.store.RedeemInvite(ctx, invite, name)
		s.members = append(s.members, session)
		return len(s.members) - 1, err
	}
	_, token, err := s.store.CreateLink(ctx, s.store.System("Simulation"), s.job,
		store.LinkWish{Name: name, Role: role, Ends: ends})
	if err != nil {
		return 0, err
	}
	_, session, err := s.store.RedeemLink(ctx, token, name+"'s phone")
	s.members = append(s.members, session)
	return len(s.members) - 1, err
}

func (s *simulated) Revoke(member int, now int64) error {
	s.now = now
	if who := s.members[member]; who.Role == job.Owner {
		return s.store.EndDevice(context.Background(), s.store.System("Simulation"), who.ID)
	}
	return s.store.RevokeLink(context.Background(), s.store.System("Simulation"), s.members[member].Link)
}

func (s *simulated) Sync(member int, log string, req sync.Request, now int64) (sync.Response, error) {
	s.now = now
	return s.store.Sync(context.Background(), s.members[member], log, req)
}

func (s *simulated) Backup(now int64) error {
	s.now = now
	s.backups++
	s.backup = filepath.Join(filepath.Dir(s.dir), fmt.Sprintf("backup%d", s.backups))
	return s.store.Backup(context.Background(), s.backup)
}

func (s *simulated) Restore(announced bool, now int64) error {
	s.now = now
	if err := s.store.Close(); err != nil {
		return err
	}
	if announced {
		if _, err := store.Restore(context.Background(), s.backup, s.dir, s.options()); err != nil {
			return err
		}
		return s.open()
	}
	data, err := os.ReadFile(s.backup)
	if err != nil {
		return err
	}
	if err := os.WriteFile(filepath.Join(s.dir, store.DatabaseName), data, 0o600); err != nil {
		return err
	}
	return s.open()
}

func (s *simulated) Held(log string) ([]server.Held, error) {
	all, err := s.store.Quarantine(s.job) // of both logs
	var held []server.Held
	for _, h := range all {
		if job.Private(h.Op.Entity) == strings.HasSuffix(log, sync.OwnSuffix) {
			held = append(held, h)
		}
	}
	return held, err
}

func (s *simulated) Accept(log string, now int64) error {
	s.now = now
	held, err := s.store.Quarantine(log)
	if err != nil {
		return err
	}
	var ids []string
	for _, h := range held {
		ids = append(ids, h.Op.ID)
	}
	return s.store.AcceptQuarantined(context.Background(), s.store.System("Owner"), log, ids)
}

func (s *simulated) Recs(log string) (recs []job.Rec, err error) {
	err = s.store.Look(log, func(l server.Ledger) error {
		recs, err = l.Read(1, 1<<30)
		return err
	})
	return recs, err
}

// pending lists the rules of the simulation that this store does not keep yet.
var pending []simulation.Rule

// The simulation of app/sync over a database on disk. It runs fewer seeds, as every write is flushed.
func TestSimulationOverADatabase(t *testing.T) {
	var sum simulation.Result
	for seed := uint64(1); seed <= 12; seed++ {
		var server *simulated
		dir := t.TempDir()
		result, err := simulation.Run(
			seed,
			simulation.Options{
				Steps:   200,
				Pending: pending,
				Server: func(jobID string, created int64) (simulation.Server, error) {
					if server != nil { // a failed run is repeated with a trace
						_ = server.store.Close()
						dir = t.TempDir()
					}
					var err error
					server, err = newSimulated(dir, jobID, created)
					return server, err
				},
			},
		)
		require.NoError(t, err)
		require.NoError(t, server.store.Close())
		assert.NoError(t, store.Verify(server.dir), "seed %d", seed)
		sum.Add(result)
	}
	t.Logf("%v", sum)
	for _, rule := range pending {
		t.Logf("NOT CHECKED, since the store does not keep it yet: %s", rule)
	}
	for _, fault := range []simulation.Count{simulation.Restores, simulation.Silent, simulation.Clones,
		simulation.Revoked, simulation.Devices, simulation.Evicted,
		simulation.Full, simulation.Forks, simulation.Quarantined, simulation.Hostile} {
		assert.NotZero(t, sum[fault], "fault %d occurs", fault)
	}
}
