package store_test

import (
	"context"
	"encoding/json"
	"path/filepath"
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/app/sync"
	"garlandry/testdata/before"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var thatDay = store.Options{Now: func() int64 { return before.Now }}

// A data directory of an earlier build still gives the same records, jobs, links, devices and decisions.
func TestDataOfAnEarlierBuildOpens(t *testing.T) {
	dir, _ := before.Data(t)
	data, err := store.Open(dir, thatDay)
	require.NoError(t, err)
	defer func() { require.NoError(t, data.Close()) }()
	assert.False(t, data.NewKey())
	said := before.Read[before.Said](t, "said.json")
	owner, err := data.Session(before.Read[before.Phone](t, "phone-owner.json.gz").Cookie[1])
	require.NoError(t, err)
	assert.Equal(t, job.Owner, owner.Role)
	helper, err := data.Session(before.Read[before.Phone](t, "phone-helper.json.gz").Cookie[1])
	require.NoError(t, err)
	assert.Equal(t, []any{job.Helper, said.Demo, ""}, []any{helper.Role, helper.Job, helper.Closed})

	jobs, err := data.Jobs(owner)
	require.NoError(t, err)
	require.Len(t, jobs, len(said.Me.Jobs))
	for i, want := range said.Me.Jobs {
		got := jobs[i]
		assert.Equal(t, []any{want.ID, want.E, want.H, want.S, want.Held},
			[]any{got.ID, got.Shared.Epoch, got.Shared.Hash, got.Shared.Seq, got.Waiting})
	}
	for name, log := range before.Read[map[string]before.Log](t, "records.json.gz") {
		sameRecords(t, data, owner, log.ID, log.Records)
		sameRecords(t, data, owner, log.ID+sync.OwnSuffix, log.Own)
		sameJob(t, data, log.ID, "exports/"+name+".json")
	}

	held, err := data.Quarantine(said.Demo)
	require.NoError(t, err)
	require.Len(t, held, 2)
	assert.Equal(t, []any{"Bea", int64(1), int64(2)}, []any{held[0].Author.Name, held[0].Op.Delta, held[1].Op.Delta})
	suspects, err := data.Suspects(said.Demo)
	require.NoError(t, err)
	require.Len(t, suspects, 1)
	assert.Equal(t, []any{said.Five, true, "command line", "counted twice"},
		[]any{suspects[0].Rec.ID, suspects[0].Aside, suspects[0].By, suspects[0].Why})
	links, err := data.Links(said.Demo)
	require.NoError(t, err)
	closed := map[string]bool{}
	for _, l := range links {
		closed[l.Name] = l.Revoked != 0
	}
	assert.Equal(t, map[string]bool{"Ines": false, "Bea": true}, closed)
	devices, err := data.OwnerDevices()
	require.NoError(t, err)
	ended := map[string]bool{}
	for _, d := range devices {
		ended[d.Name] = d.Closed != ""
	}
	assert.Equal(t, map[string]bool{"Desk": false, "": false, "Old tablet": true}, ended)

	ids := []string{held[0].Op.ID, held[1].Op.ID}
	require.NoError(t, data.AcceptQuarantined(context.Background(), data.System("Owner"), said.Demo, ids))
	require.NoError(t, data.Backup(context.Background(), filepath.Join(t.TempDir(), "copy.db")), "it checks every seal")
}

func sameRecords(t *testing.T, data *store.Store, who store.Session, log string, want []json.RawMessage) {
	t.Helper()
	var got []job.Rec
	for at := (sync.Cursor{}); ; {
		resp, err := data.Sync(context.Background(), who, log,
			sync.Request{V: sync.WireVersion, Device: "reader", Now: before.Now, Cursor: at})
		require.NoError(t, err)
		got = append(got, resp.Recs...)
		if at = (sync.Cursor{Epoch: resp.Epoch, Seq: resp.Seq, Hash: resp.Hash}); !resp.More {
			break
		}
	}
	require.Len(t, got, len(want), log)
	for i := range want {
		text, err := json.Marshal(got[i])
		require.NoError(t, err)
		assert.JSONEq(t, string(want[i]), string(text))
	}
}

// sameJob checks that the folded job equals the job file of the earlier build.
func sameJob(t *testing.T, data *store.Store, id, file string) {
	t.Helper()
	shared, own, err := data.State(id)
	require.NoError(t, err)
	text, err := job.EncodeFile(job.Read(id, shared, own))
	require.NoError(t, err)
	assert.Equal(t, string(before.File(t, file)), string(text))
}

// A backup of an earlier build can be restored, in its directory and elsewhere, and its journal can be replayed.
func TestBackupAndJournalOfAnEarlierBuildCanBeRestored(t *testing.T) {
	for _, row := range []struct {
		name    string
		restore func(t *testing.T, dir, backup string) string
		held    int
	}{
		{"over the data", func(t *testing.T, dir, backup string) string {
			done, err := store.Restore(context.Background(), backup, dir, thatDay)
			require.NoError(t, err)
			assert.Equal(t, store.SealsGood, done.Seals)
			return dir
		}, 2},
		{"elsewhere", func(t *testing.T, _, backup string) string {
			to := filepath.Join(t.TempDir(), "new")
			done, err := store.Restore(context.Background(), backup, to, thatDay)
			require.NoError(t, err)
			assert.Equal(t, store.SealsNoKey, done.Seals)
			return to
		}, 2},
		{"from the journal", func(t *testing.T, dir, _ string) string {
			to := filepath.Join(t.TempDir(), "new")
			done, err := store.Replay(context.Background(), dir, to, thatDay)
			require.NoError(t, err)
			assert.Empty(t, done.Unreadable)
			assert.Empty(t, done.Refused)
			assert.Equal(t, []any{2, 2, false}, []any{done.Jobs, done.Held, done.NewKey})
			return to
		}, 2},
	} {
		t.Run(row.name, func(t *testing.T) {
			dir, backup := before.Data(t)
			data, err := store.Open(row.restore(t, dir, backup), thatDay)
			require.NoError(t, err)
			defer func() { require.NoError(t, data.Close()) }()
			for name, log := range before.Read[map[string]before.Log](t, "records.json.gz") {
				sameJob(t, data, log.ID, "exports/"+name+".json")
			}
			held, err := data.Quarantine(before.Read[before.Said](t, "said.json").Demo)
			require.NoError(t, err)
			assert.Len(t, held, row.held)
		})
	}
}
