package server_test

import (
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/memory"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// All operations of a revoked link wait for the owner. Of a link that ended, only those made after its end wait.
func TestOperationsOfAClosedLink(t *testing.T) {
	const made, closed, now = int64(1_800_000_000_000), int64(1_800_000_100_000), int64(1_800_000_200_000)
	for _, row := range []struct {
		name   string
		closed string
		at     int64
		role   job.Role
		want   sync.Result
		inLog  uint64
	}{
		{"open", "", closed + 1, job.Helper, sync.OK, 1},
		{"revoked, made before", sync.Revoked, closed - 1, job.Helper, sync.Quarantined, 0},
		{"revoked, made after", sync.Revoked, closed + 1, job.Helper, sync.Quarantined, 0},
		{"ended, made before", sync.Ended, closed - 1, job.Helper, sync.OK, 1},
		{"ended, made after", sync.Ended, closed + 1, job.Helper, sync.Quarantined, 0},
		{"revoked, and never allowed", sync.Revoked, closed - 1, "stranger", sync.Denied, 0},
	} {
		t.Run(row.name, func(t *testing.T) {
			ledger := memory.New("readingroom", "epoch", []byte("a key for the tests"), made)
			session := server.Session{ID: "phone of bea", Closed: row.closed, ClosedAt: closed,
				Author: job.Author{Role: row.role, Name: "Bea", Link: "link1"}}
			op := job.Op{ID: "operation1", Device: "device1", Number: 1, Version: job.Version, Kind: job.Add,
				Entity: "card/make/door", Delta: 5, Wall: row.at}
			resp, err := server.Serve(ledger, session, sync.Request{V: sync.WireVersion, Device: "device1", Now: now,
				Closed: row.closed != "", Ops: []job.Op{op}}, now)
			require.NoError(t, err)
			require.Len(t, resp.Acks, 1)
			assert.Equal(t, row.want, resp.Acks[0].Result)
			head, err := ledger.Head()
			require.NoError(t, err)
			assert.Equal(t, row.inLog, head.Seq)
			if row.want != sync.Quarantined {
				assert.Empty(t, ledger.Quarantine())
				return
			}
			require.Len(t, ledger.Quarantine(), 1)
			held := ledger.Quarantine()[0]
			assert.Equal(t, []any{op, row.at < closed}, []any{held.Op, held.BeforeEnd})
			require.NoError(t, server.Release(ledger, held, now), "the owner accepts it")
			rec, found, err := ledger.ByID(op.ID)
			require.NoError(t, err)
			assert.Equal(t, []any{true, session.Author, row.at}, []any{found, rec.Author, rec.Effective})
		})
	}
}
